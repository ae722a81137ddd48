/** Sites by cost, the least first; a site whose cost fell is in it twice, and its old place is passed over. */
export class Heap {
  private readonly items: number[] = [];
  private readonly costs: number[] = [];

  constructor(private readonly costM: Float64Array) {}

  clear(): void {
    this.items.length = 0;
    this.costs.length = 0;
  }

  push(site: number): void {
    const { items, costs } = this;
    let at = items.length;
    const cost = this.costM[site]!;
    items.push(site);
    costs.push(cost);
    while (at > 0) {
      const above = (at - 1) >> 1;
      if (!isBefore(cost, site, costs[above]!, items[above]!)) break;
      items[at] = items[above]!;
      costs[at] = costs[above]!;
      at = above;
    }
    items[at] = site;
    costs[at] = cost;
  }

  /** @returns -1 where it is empty */
  pop(): number {
    const { items, costs } = this;
    if (items.length === 0) return -1;
    const top = items[0]!;
    const site = items.pop()!;
    const cost = costs.pop()!;
    const count = items.length;
    if (count === 0) return top;
    let at = 0;
    for (;;) {
      let below = 2 * at + 1;
      if (below >= count) break;
      if (below + 1 < count && isBefore(costs[below + 1]!, items[below + 1]!, costs[below]!, items[below]!))
        below++;
      if (!isBefore(costs[below]!, items[below]!, cost, site)) break;
      items[at] = items[below]!;
      costs[at] = costs[below]!;
      at = below;
    }
    items[at] = site;
    costs[at] = cost;
    return top;
  }
}

function isBefore(cost: number, site: number, than: number, thanSite: number): boolean {
  return cost < than || (cost === than && site < thanSite);
}
