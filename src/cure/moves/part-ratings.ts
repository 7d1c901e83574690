/** Ratings that switches, bars and panels are sold with, A. */
const AMPS = [10, 15, 20, 25, 30, 40, 50, 60, 80, 100, 125, 150, 175, 200, 250, 300, 350, 400, 500, 600];
/** Ratings that inverters are sold with, VA or W. */
const WATTS = [
  150, 200, 300, 400, 500, 600, 800, 1000, 1200, 1500, 1600, 2000, 2500, 3000, 3500, 4000, 5000, 6000, 8000,
];
/** Direct volts that devices and switches are sold for. */
const VOLTS = [32, 48, 58, 60, 80, 125];

// common practice of marine and vehicle trade; a step more or less changes which rating is named and not whether it cures

export const ampsAbove = (now: number): readonly number[] => AMPS.filter((a) => a > now);
/** The three next ratings below, the nearest first. */
export const ampsBelow = (now: number): readonly number[] =>
  AMPS.filter((a) => a < now)
    .slice(-3)
    .reverse();
export const wattsAbove = (now: number): readonly number[] => WATTS.filter((w) => w > now);
export const voltsAbove = (now: number): readonly number[] => VOLTS.filter((v) => v > now);
