/** Every port of a site with what is on it: a row a port, for the page, lists and whoever wires the site. */
import { type CableLabel, labelsOf, portWords } from "./labels.js";
import {
  type Carried,
  type JoinedBy,
  type Joint,
  type PortRef,
  portKey,
  type WiredPart,
  type WiredPort,
  type Wiring,
} from "./wiring.js";

export interface PortRow {
  readonly site: string;
  readonly part: WiredPart;
  readonly port: WiredPort;
  /** As labels name it. */
  readonly here: string;
  /** Undefined: nothing is joined to it. */
  readonly joined?: {
    readonly there: string;
    readonly far: PortRef;
    readonly by: JoinedBy;
    readonly carries: Carried;
    readonly proposed: boolean;
    /** Number of the cable and label at this end. */
    readonly cable?: string;
    readonly label?: string;
  };
  /** Of a port that wants what it has not found. */
  readonly lacks?: Wiring["loose"][number]["lacks"];
}

/** @param rule of labels, see `labelsOf`; undefined: the usual one */
export function portPlan(wiring: Wiring, rule?: string): readonly PortRow[] {
  const labels = labelsOf(wiring, rule);
  const joints = new Map<string, { readonly joint: Joint; readonly end: 0 | 1 }>();
  for (const joint of wiring.joints)
    for (const end of [0, 1] as const) joints.set(portKey(joint.ends[end]), { joint, end });
  const lacking = new Map(wiring.loose.map((one) => [portKey(one), one.lacks]));
  return [...wiring.parts.values()].flatMap((part) =>
    part.ports.map((port): PortRow => {
      const ref = { part: part.id, port: port.name };
      const found = joints.get(portKey(ref));
      return {
        site: wiring.site,
        part,
        port,
        here: portWords(ref, wiring),
        joined: found && joined(found.joint, found.end, labels.get(found.joint), wiring),
        lacks: lacking.get(portKey(ref)),
      };
    }),
  );
}

function joined(
  { ends, by, carries, proposed }: Joint,
  end: 0 | 1,
  label: CableLabel | undefined,
  wiring: Wiring,
): PortRow["joined"] {
  const far = ends[end === 0 ? 1 : 0];
  return {
    there: portWords(far, wiring),
    far,
    by,
    carries,
    proposed: proposed === true,
    cable: label?.cable,
    label: label?.ends[end],
  };
}
