/** Style sheets are imported for their effect alone; the build gathers them. */
declare module "*.css";
