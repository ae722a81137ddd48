import { portKey, type Wiring } from "../../shared/equipment/wiring/wiring.js";

/** What must hold of any wiring; the list says what it breaks. */
export function wiringFaults({ parts, joints, loose }: Wiring): string[] {
  const ports = new Set(
    [...parts.values()].flatMap(({ id, ports: own }) =>
      own.map(({ name }) => portKey({ part: id, port: name })),
    ),
  );
  const faults: string[] = [];
  for (const { id, ports: own } of parts.values())
    if (new Set(own.map(({ name }) => name)).size < own.length)
      faults.push(`${id} has two ports of one name`);
  const seen = new Set<string>();
  for (const end of joints.flatMap(({ ends }) => ends)) {
    const key = portKey(end);
    if (!ports.has(key)) faults.push(`no port ${key}`);
    if (seen.has(key)) faults.push(`${key} twice`);
    seen.add(key);
  }
  for (const { part, port } of loose)
    if (seen.has(portKey({ part, port }))) faults.push(`${part} ${port} is not loose`);
  return faults;
}
