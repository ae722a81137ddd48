/** Propagation by diffraction. Rec. ITU-R P.526-15 (10/2019). */
export * from "./bullington.js";
export * from "./delta-bullington.js";
export * from "./fresnel.js";
export * from "./knife-edge.js";
export * from "./spherical-earth.js";
