/** A wiring while it is put together: parts first, then what joins their ports. */
import type { PortType, Service } from "../../design/equipment.js";
import { cardId } from "./ids.js";
import type { TrafficPort } from "./traffic-ports.js";
import { type Joint, type LooseEnd, type PortRef, portKey, type WiredPart, type Wiring } from "./wiring.js";

export interface SitePort extends TrafficPort {
  readonly ref: PortRef;
}

interface BalunPair {
  /** To the service, and to the card: either impedance serves on either side. */
  readonly outer: PortRef;
  readonly inner: PortRef;
}

/** Ports that carry traffic: no IF, no contacts, no auxiliary lines. */
const TRAFFIC: ReadonlySet<string> = new Set<PortType>([
  "FE",
  "GE",
  "2.5GE",
  "10GE",
  "E1-75",
  "E1-120",
  "STM-1-electrical",
  "STM-1-optical",
]);

export class Assembly {
  private readonly parts = new Map<string, WiredPart>();
  private readonly joints: Joint[] = [];
  private readonly ends: LooseEnd[] = [];
  private traffic: readonly SitePort[] | undefined;
  private indexes: ReadonlyMap<string, number> | undefined;

  /** The first of one identifier counts. */
  part(part: WiredPart): void {
    if (!this.parts.has(part.id)) this.parts.set(part.id, part);
  }

  joint(
    ends: readonly [PortRef, PortRef],
    { proposed = false, ...rest }: Pick<Joint, "by" | "carries"> & { readonly proposed?: boolean },
  ): void {
    this.joints.push({ ends, ...rest, ...(proposed && { proposed }) });
  }

  loose(end: LooseEnd): void {
    this.ends.push(end);
  }

  /** Ports of one type on chassis and cards, in the order of the site. */
  portsOf(type: PortType): PortRef[] {
    return this.rackParts().flatMap(({ id, ports }) =>
      ports.flatMap((port) => (port.type === type ? [{ part: id, port: port.name }] : [])),
    );
  }

  trafficPorts(): readonly SitePort[] {
    this.traffic ??= this.rackParts().flatMap(({ id, ports }) =>
      ports.flatMap(({ name, type, powered = false }) =>
        TRAFFIC.has(type)
          ? [{ type: type as PortType, powered, part: id, ref: { part: id, port: name } }]
          : [],
      ),
    );
    return this.traffic;
  }

  /** Indexes among the traffic ports of those that a service states; undefined where its port is no traffic port. */
  statedPorts({ port: claim, count }: Service): readonly (number | undefined)[] | undefined {
    if (claim === undefined) return undefined;
    const chassis = claim.chassis ?? this.rackParts().find(({ kind }) => kind === "chassis")?.place?.chassis;
    const part = chassis === undefined ? "" : cardId(chassis, claim.slot);
    this.indexes ??= new Map(this.trafficPorts().map(({ ref }, index) => [portKey(ref), index]));
    const { indexes } = this;
    return Array.from({ length: count }, (_, k) =>
      indexes.get(portKey({ part, port: String(claim.port + k) })),
    );
  }

  balunPairs(): BalunPair[] {
    return [...this.parts.values()]
      .filter(({ kind }) => kind === "balun")
      .flatMap(({ id, ports }) =>
        Array.from({ length: ports.length / 2 }, (_, k) => ({
          outer: { part: id, port: `${k + 1} out` },
          inner: { part: id, port: `${k + 1} in` },
        })),
      );
  }

  wiring(site: string): Wiring {
    return { site, parts: this.parts, joints: this.joints, loose: this.ends };
  }

  private rackParts(): readonly WiredPart[] {
    return [...this.parts.values()].filter(({ kind }) => kind === "chassis" || kind === "card");
  }
}
