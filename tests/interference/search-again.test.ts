/** A search that goes on from an earlier one finds what one among the same senders finds that knows nothing, to the last bit. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { antennaView } from "../../shared/interference/antenna-view.js";
import { Bands } from "../../shared/interference/bands.js";
import { Cells } from "../../shared/interference/cells.js";
import { Filters, reachHz } from "../../shared/interference/filters.js";
import { type Found, SenderIndex } from "../../shared/interference/search.js";
import type { Receiver, Sender } from "../../shared/interference/station.js";

const VIEW = antennaView({ pattern: [], gainDbi: 38, diameterM: 0.6 }, 18e9, "F.699");
const SHAPE = { kind: "raised-cosine", symbolRateHz: 24e6, rollOff: 0.15 } as const;

/** Some 350 km across: near, in reach and far beyond. */
const place = fc.record({
  latitudeDeg: fc.double({ min: 46, max: 49, noNaN: true }),
  longitudeDeg: fc.double({ min: -32, max: -28, noNaN: true }),
});
const drawn = fc.record({
  place,
  azimuthDeg: fc.double({ min: 0, max: 360, noNaN: true }),
  channel: fc.nat(20),
  width: fc.constantFrom(13.75e6, 27.5e6, 27.5e6, 27.5e6),
  eirpDbm: fc.integer({ min: -20, max: 70 }),
});
type Drawn = typeof drawn extends fc.Arbitrary<infer T> ? T : never;

const lay = ({ place: position, azimuthDeg, channel, width }: Drawn, key: string) => ({
  key,
  of: { hop: key },
  place: { site: key, position, groundM: 200, antennaM: 30, boresight: { azimuthDeg, elevationDeg: 0 } },
  frequencyHz: 17.7e9 + channel * 13.75e6,
  polarization: "vertical" as const,
  bandwidthHz: width,
  antenna: VIEW,
});
const senderOf = (one: Drawn, key: string): Sender => ({
  ...lay(one, key),
  eirpDbm: one.eirpDbm,
  reductionDb: 0,
  spectrum: SHAPE,
});
const receiverOf = (one: Drawn, key: string): Receiver => ({
  ...lay(one, key),
  lossDb: 1,
  noiseDbm: -95,
  selectivity: SHAPE,
});

const indexOf = (cells: Cells) => new SenderIndex(cells, new Filters(), 20, 330);

test("what is found after any changes is what a search that begins anew finds", () => {
  let [wentOn, others] = [0, 0];
  fc.assert(
    fc.property(
      fc.array(drawn, { minLength: 30, maxLength: 80 }),
      fc.array(drawn, { minLength: 3, maxLength: 6 }),
      fc.array(fc.array(fc.tuple(fc.nat(), drawn, fc.boolean()), { maxLength: 3 }), { maxLength: 6 }),
      fc.array(fc.boolean(), { minLength: 6, maxLength: 6 }),
      (first, receivers, rounds, looked) => {
        let senders = first.map((one, i) => senderOf(one, `S${i}`));
        const listening = receivers.map((one, i) => receiverOf(one, `R${i}`));
        let index = indexOf(Cells.of(senders));
        const known: Found[] = listening.map((receiver) => index.find(receiver));
        for (const [round, changes] of rounds.entries()) {
          for (const [which, one, stays] of changes) {
            const place = which % senders.length;
            const gone = senders[place]!;
            const come = stays ? [senderOf(one, gone.key)] : [];
            index = index.changed([gone], come);
            senders = senders.toSpliced(place, 1, ...come);
          }
          // Some are looked at only after several rounds.
          if (!looked[round]) continue;
          const fresh = indexOf(Cells.of(senders));
          for (const [i, receiver] of listening.entries()) {
            const found = index.find(receiver, known[i]);
            const { among: _, ...anew } = fresh.find(receiver);
            const { among: __, ...again } = found;
            expect(again).toEqual(anew);
            if (found.entries === known[i]!.entries && found !== known[i]) wentOn++;
            else others++;
            known[i] = found;
          }
        }
      },
    ),
    { numRuns: 150 },
  );
  expect(Math.min(wentOn, others)).toBeGreaterThan(100);
});

test("receivers near in frequency to some senders are all there after any changes, and each once", () => {
  fc.assert(
    fc.property(
      fc.array(drawn, { minLength: 1, maxLength: 30 }),
      fc.array(fc.tuple(fc.nat(), drawn, fc.boolean()), { maxLength: 8 }),
      fc.array(drawn, { maxLength: 3 }),
      (first, changes, sending) => {
        let receivers = first.map((one, i) => receiverOf(one, `R${i}`));
        let bands = Bands.of(receivers);
        for (const [which, one, stays] of changes) {
          if (receivers.length === 0) break;
          const place = which % receivers.length;
          const come = stays ? [receiverOf(one, receivers[place]!.key)] : [];
          bands = bands.changed([receivers[place]!], come);
          receivers = receivers.toSpliced(place, 1, ...come);
        }
        const senders = sending.map((one, i) => senderOf(one, `S${i}`));
        const near = bands.near(senders);
        expect(new Set(near).size).toBe(near.length);
        for (const one of near) expect(receivers).toContain(one);
        for (const one of receivers) {
          const inReach = senders.some(
            ({ frequencyHz, bandwidthHz }) =>
              Math.abs(frequencyHz - one.frequencyHz) <= reachHz(bandwidthHz, one.bandwidthHz),
          );
          if (inReach) expect(near).toContain(one);
        }
      },
    ),
  );
});
