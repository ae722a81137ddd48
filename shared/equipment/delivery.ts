/** Where parts are on their way from the order to the site, as the design states it. It changes no figure. */
import type { Delivery, PartKind } from "../design/equipment.js";

interface Ordered {
  readonly kind: PartKind;
  readonly toChoose?: true;
  readonly delivery?: Delivery;
}

/** Parts with what is stated of them: of their kind, or of all at that end or site; the last line holds. */
export function withDelivery<P extends Ordered>(
  parts: readonly P[],
  stated: readonly Delivery[] | undefined,
): readonly P[] {
  if (stated === undefined) return parts;
  return parts.map((part) => {
    const ofKind = stated.findLast(({ of }) => of === part.kind);
    const delivery = ofKind ?? stated.findLast(({ of }) => of === undefined);
    // What is still to be chosen cannot have been ordered.
    return delivery === undefined || part.toChoose ? part : { ...part, delivery };
  });
}

/** Parts as they are ordered, wherever they are. */
export function withoutDelivery<P extends Ordered>({ delivery: _, ...part }: P): Omit<P, "delivery"> {
  return part;
}

/** `delivered 2026-11-20, order 4711` */
export function deliveryWords({ state, date, remark }: Delivery): string {
  const when = date === undefined ? state : `${state} ${date}`;
  return remark === undefined || remark === "" ? when : `${when}, ${remark}`;
}
