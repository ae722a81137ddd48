/** A wiring while it is put together: parts first, then what joins their ports. */
import type { PortClaim, PortType } from "../../design/equipment.js";
import { cardId } from "./ids.js";
import type { TrafficPort } from "./traffic-ports.js";
import {
  type Joint,
  type LooseEnd,
  type PortRef,
  portKey,
  type StatedFault,
  type WiredPart,
  type WiredPort,
  type Wiring,
} from "./wiring.js";

export interface SitePort extends TrafficPort {
  readonly ref: PortRef;
}

interface BalunPair {
  /** To the service, and to the card: either impedance serves on either side. */
  readonly outer: PortRef;
  readonly inner: PortRef;
}

export class Assembly {
  private readonly parts = new Map<string, WiredPart>();
  private readonly joints: Joint[] = [];
  private readonly ends: LooseEnd[] = [];
  private readonly joined = new Set<string>();
  /** All ports of the parts. */
  private readonly ports = new Set<string>();
  private readonly rack: WiredPart[] = [];
  private traffic: readonly SitePort[] | undefined;
  private pairs: Iterator<BalunPair, undefined> | undefined;
  private indexes: ReadonlyMap<string, number> | undefined;

  /** The first of one identifier counts. */
  part(part: WiredPart): void {
    if (this.parts.has(part.id)) return;
    this.parts.set(part.id, part);
    for (const { name } of part.ports) this.ports.add(portKey({ part: part.id, port: name }));
    if (part.kind === "chassis" || part.kind === "card") this.rack.push(part);
  }

  /** Two ports that are there and free; where one is not, since a design says a thing twice, the other is left loose. */
  joint(
    ends: readonly [PortRef, PortRef],
    { proposed = false, ...rest }: Pick<Joint, "by" | "carries"> & { readonly proposed?: boolean },
  ): void {
    const free = ends.filter((end) => this.ports.has(portKey(end)) && !this.isJoined(end));
    if (free.length < 2) {
      for (const end of free) this.loose({ ...end, lacks: "port of its own" });
      return;
    }
    for (const end of ends) this.joined.add(portKey(end));
    this.joints.push({ ends, ...rest, ...(proposed && { proposed }) });
  }

  loose(end: LooseEnd): void {
    this.ends.push(end);
  }

  isJoined(end: PortRef): boolean {
    return this.joined.has(portKey(end));
  }

  /** Ports of one type on chassis and cards, in the order of the site. */
  portsOf(type: PortType): PortRef[] {
    return this.rack.flatMap(({ id, ports }) =>
      ports.flatMap((port) => (port.type === type ? [{ part: id, port: port.name }] : [])),
    );
  }

  /** Ports that a service may take: all but those of units and those inside the rack. */
  trafficPorts(): readonly SitePort[] {
    this.traffic ??= this.rack.flatMap(({ id, ports }) =>
      ports.flatMap(({ name, type, powered = false }) =>
        isHandedOver(type) ? [{ type, powered, part: id, ref: { part: id, port: name } }] : [],
      ),
    );
    return this.traffic;
  }

  /** Index among the traffic ports of one that is stated, or why there is none. */
  statedPort(claim: PortClaim): number | Exclude<StatedFault, "taken"> {
    const chassis = claim.chassis ?? this.rack[0]?.place?.chassis;
    const part = chassis === undefined ? "" : cardId(chassis, claim.slot);
    this.indexes ??= new Map(this.trafficPorts().map(({ ref }, index) => [portKey(ref), index]));
    const port = String(claim.port);
    const index = this.indexes.get(portKey({ part, port }));
    if (index !== undefined) return index;
    const card = this.parts.get(part);
    if (card === undefined) return "no card in the slot";
    return card.ports.some(({ name }) => name === port) ? "another kind" : "no such port";
  }

  hasRack(): boolean {
    return this.rack.length > 0;
  }

  /** The next pair of the site's panels. */
  takeBalunPair(): BalunPair | undefined {
    this.pairs ??= [...this.parts.values()]
      .filter(({ kind }) => kind === "balun")
      .flatMap(({ id, ports }) =>
        Array.from({ length: ports.length / 2 }, (_, k) => ({
          outer: { part: id, port: `${k + 1} out` },
          inner: { part: id, port: `${k + 1} in` },
        })),
      )
      .values();
    return this.pairs.next().value;
  }

  wiring(site: string): Wiring {
    return { site, parts: this.parts, joints: this.joints, loose: this.ends };
  }
}

const NOT_HANDED_OVER: ReadonlySet<string> = new Set<WiredPort["type"]>([
  "IF",
  "backplane",
  "supply",
  "contact",
  "waveguide",
]);

function isHandedOver(type: WiredPort["type"]): type is PortType {
  return !NOT_HANDED_OVER.has(type);
}
