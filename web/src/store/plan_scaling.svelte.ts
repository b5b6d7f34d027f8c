// SPDX-License-Identifier: GPL-3.0-or-later
// Giving a plan picture its scale: two of its points and their distance. The first point stays where it is in the site.
import type { SitePoint } from "../base/plane";
import { distance } from "../base/plane";
import type { Plan } from "../wire/document";

class PlanScaling {
  on = $state(false);
  points = $state.raw<readonly SitePoint[]>([]);

  begin(): void {
    this.on = true;
    this.points = [];
  }
  show(p: SitePoint): void {
    if (this.points.length < 2) this.points = [...this.points, p];
  }
  back(): void {
    this.points = this.points.slice(0, -1);
  }
  end(): void {
    this.on = false;
    this.points = [];
  }
}

export const plan_scaling = new PlanScaling();

/** The plan drawn so large that `a` and `b`, as it lies now, are `metres` apart, and `a` stays where it is. */
export function scaled_plan(plan: Plan, a: SitePoint, b: SitePoint, metres: number): Plan {
  const factor = metres / distance(a, b);
  const north_west: SitePoint = [
    a[0] + (plan.north_west[0] - a[0]) * factor,
    a[1] + (plan.north_west[1] - a[1]) * factor,
  ];
  const rounded = (value: number): number => Number(value.toPrecision(8));
  return {
    ...plan,
    metres_per_pixel: rounded(plan.metres_per_pixel * factor),
    north_west: [rounded(north_west[0]), rounded(north_west[1])],
  };
}
