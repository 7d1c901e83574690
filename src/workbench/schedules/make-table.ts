import type { Units } from "../contract.ts";
import type { PagePlan } from "../worker/protocol.ts";
import { circuitsTable } from "./circuits-table.ts";
import {
  conductorsTable,
  defaultsTable,
  devicesTable,
  voltagesTable,
  waiversTable,
  type Studied,
} from "./other-tables.ts";
import type { ScheduleId, Table } from "./table.ts";

/** One schedule of a plan, in the person's units. @param studied heat and faults, which come later; null: they are not there yet */
export function makeTable(id: ScheduleId, plan: PagePlan, units: Units, studied: Studied | null = null): Table {
  switch (id) {
    case "circuits":
      return circuitsTable(plan, units);
    case "conductors":
      return conductorsTable(plan, units, studied);
    case "devices":
      return devicesTable(plan, units);
    case "voltages":
      return voltagesTable(plan, units);
    case "defaults":
      return defaultsTable(plan);
    case "waivers":
      return waiversTable(plan);
  }
}
