/** Angle between a beam and the geostationary orbit. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { GREATEST_BENDING_DEG, orbitAngleDeg } from "../../shared/geodesy/orbit.js";

const DEG = Math.PI / 180;

/**
 * Azimuth and elevation of a satellite east by lambda, from a latitude: the closed forms of earth station practice.
 *
 *     cos c = cos phi cos lambda,   tan el = (cos c - re/rs)/sin c,   az = 180 - atan(tan lambda/sin phi)  (north)
 */
function satellite(latitudeDeg: number, longitudeDeg: number) {
  const [phi, lambda] = [latitudeDeg * DEG, longitudeDeg * DEG];
  const cosC = Math.cos(phi) * Math.cos(lambda);
  const elevationDeg = Math.atan2(cosC - 6378.137 / 42_164, Math.sqrt(1 - cosC * cosC)) / DEG;
  const azimuthDeg = 180 - Math.atan2(Math.sin(lambda), Math.sin(phi) * Math.cos(lambda)) / DEG;
  return { azimuthDeg, elevationDeg };
}

describe("orbit", () => {
  it("a beam at any satellite has no angle to it", () => {
    const latitude = fc.double({ min: 1, max: 75, noNaN: true });
    const longitude = fc.double({ min: -70, max: 70, noNaN: true });
    fc.assert(
      fc.property(latitude, longitude, (phi, lambda) => {
        const beam = satellite(phi, lambda);
        if (beam.elevationDeg < 0.1) return;
        expect(orbitAngleDeg(phi, beam, 0)).toBeLessThan(1e-3);
        expect(orbitAngleDeg(phi, beam)).toBeLessThan(1e-3);
      }),
    );
  });

  it("from 45 degrees of latitude the orbit stands 38.2 degrees high in the south", () => {
    expect(satellite(45, 0).elevationDeg).toBeCloseTo(38.17, 2);
    expect(orbitAngleDeg(45, { azimuthDeg: 180, elevationDeg: 0 }, 0)).toBeCloseTo(38.17, 2);
    // Away from it.
    expect(orbitAngleDeg(45, { azimuthDeg: 0, elevationDeg: 0 }, 0)).toBeGreaterThan(80);
    // A level beam meets it where it sets: due east or west at the equator.
    expect(orbitAngleDeg(0, { azimuthDeg: 90, elevationDeg: 0 }, 0)).toBeLessThan(1e-3);
  });

  it("a beam just above the orbit may bend into it, one below does not bend up", () => {
    const { azimuthDeg, elevationDeg } = satellite(50, 20);
    const above = { azimuthDeg, elevationDeg: elevationDeg + 0.7 };
    expect(orbitAngleDeg(50, above)).toBeLessThan(1e-3);
    const below = { azimuthDeg, elevationDeg: elevationDeg - 0.7 };
    expect(orbitAngleDeg(50, below)).toBeCloseTo(orbitAngleDeg(50, below, 0)!, 6);
    expect(orbitAngleDeg(50, { ...above, elevationDeg: elevationDeg + 5 })!).toBeLessThan(
      orbitAngleDeg(50, { ...above, elevationDeg: elevationDeg + 5 - GREATEST_BENDING_DEG }, 0)! + 1e-6,
    );
  });

  it("is never less without bending, and is no figure near the poles", () => {
    const beams = fc.record({
      azimuthDeg: fc.double({ min: 0, max: 360, noNaN: true }),
      elevationDeg: fc.double({ min: -5, max: 20, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.double({ min: -90, max: 90, noNaN: true }), beams, (phi, beam) => {
        const bent = orbitAngleDeg(phi, beam);
        const straight = orbitAngleDeg(phi, beam, 0);
        if (straight === undefined) return;
        expect(Number.isFinite(straight)).toBe(true);
        expect(bent!).toBeLessThanOrEqual(straight + 1e-3);
      }),
    );
    expect(orbitAngleDeg(89, { azimuthDeg: 180, elevationDeg: 0 })).toBeUndefined();
  });
});
