// glide brings a window from where it is to where it should be, calmly: nothing on
// screen jumps under a hand. Who wants less motion has it there at once.
import { shot } from "./shot.js";

const PACE = 60; // ms in which two thirds of the way are gone
const THERE = 2e-3; // of the window: a pixel of the widest, which nobody sees
const BESIDE = 50; // ms between steps while a plan is worked out, which would wait for each

export class Glide {
  /** @param {() => void} draw called whenever it has moved */
  constructor(draw) {
    this.draw = draw;
    this.set = false; // whether there is a window yet
    /** Where it is and where it goes. @type {[number, number]} */
    this.now = [0, 0];
    /** @type {[number, number]} */
    this.goal = [0, 0];
    this.going = false;
    this.last = 0;
  }

  /**
   * Goes to a window, at once where there is none yet or where that is asked for.
   * @param {[number, number]} goal
   * @param {boolean} atOnce
   */
  to(goal, atOnce = false) {
    this.goal = goal;
    if (!this.set || atOnce || matchMedia("(prefers-reduced-motion: reduce)").matches) {
      const same = this.set && this.now[0] === goal[0] && this.now[1] === goal[1];
      this.now = [...goal];
      this.set = true;
      if (!same) this.draw();
      return;
    }
    if (this.going || near(this.now, goal)) return;
    this.going = true;
    this.last = performance.now();
    requestAnimationFrame((now) => this.step(now));
  }

  /** @param {number} now */
  step(now) {
    if (shot.pending && now - this.last < BESIDE) return void requestAnimationFrame((next) => this.step(next));
    const { now: from, goal } = this;
    const share = 1 - Math.exp(-Math.max(now - this.last, 0) / PACE);
    this.last = now;
    this.now = [from[0] + (goal[0] - from[0]) * share, from[1] + (goal[1] - from[1]) * share];
    this.going = !near(this.now, goal);
    if (!this.going) this.now = [...goal];
    this.draw();
    if (this.going) requestAnimationFrame((next) => this.step(next));
  }
}

/** @param {[number, number]} at  @param {[number, number]} goal */
const near = (at, goal) => goal.every((g, i) => Math.abs(g - at[i]) <= (goal[1] - goal[0]) * THERE);
