/**
 * Where the boxes and lines of a diagram go: a layered layout, worked out at once, the same each time for the same order.
 * The one file that knows the library.
 */
import { graphlib, layout } from "@dagrejs/dagre";

export interface Box {
  readonly id: string;
  readonly width: number;
  readonly height: number;
}

/** A line between two boxes, with room for its label. Several may join the same two. */
export interface Line {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly labelWidth: number;
  readonly labelHeight: number;
}

type Point = readonly [number, number];

export interface LaidOut {
  readonly width: number;
  readonly height: number;
  /** Middles of the boxes. */
  readonly boxes: ReadonlyMap<string, Point>;
  readonly lines: ReadonlyMap<string, { readonly points: readonly Point[]; readonly label: Point }>;
}

const MARGIN = 12;

/** How boxes come into layers: several ways are tried, none is best for every network. */
export interface Way {
  /** Layers below each other; else from left to right. */
  readonly down: boolean;
  readonly ranker: "network-simplex" | "tight-tree" | "longest-path";
}

export const WAYS: readonly Way[] = [false, true].flatMap((down) =>
  (["network-simplex", "tight-tree", "longest-path"] as const).map((ranker) => ({ down, ranker })),
);

export function layOut(boxes: readonly Box[], lines: readonly Line[], { down, ranker }: Way): LaidOut {
  const graph = new graphlib.Graph({ multigraph: true });
  graph.setGraph({
    rankdir: down ? "TB" : "LR",
    ranker,
    nodesep: 24,
    ranksep: 28,
    edgesep: 12,
    marginx: MARGIN,
    marginy: MARGIN,
  });
  for (const { id, width, height } of boxes) graph.setNode(id, { width, height });
  for (const { id, from, to, labelWidth: width, labelHeight: height } of lines)
    graph.setEdge(from, to, { width, height, labelpos: "c" }, id);
  layout(graph);
  const { width = 0, height = 0 } = graph.graph() as { width?: number; height?: number };
  return {
    width,
    height,
    boxes: new Map(boxes.map(({ id }) => [id, middleOf(graph.node(id))])),
    lines: new Map(
      lines.map(({ id, from, to }) => {
        const edge = graph.edge({ v: from, w: to, name: id }) as {
          points: readonly { x: number; y: number }[];
          x: number;
          y: number;
        };
        return [id, { points: edge.points.map(middleOf), label: middleOf(edge) }];
      }),
    ),
  };
}

function middleOf({ x, y }: { readonly x: number; readonly y: number }): Point {
  return [x, y];
}
