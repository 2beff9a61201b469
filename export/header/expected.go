package header

import (
	"fmt"
	"math"
	"strings"

	"seamrail/motion/controller/ontime"
)

// Expected says what a controller is expected to make of a take, a line each:
// how long a round takes, how late the take ends, and how far each axis is off
// at the worst captured frame.
func Expected(p ontime.Prediction) []string {
	if p.Exact {
		return []string{"plays a table of steps: each step on its tick, no planning of its own"}
	}
	out := []string{
		fmt.Sprintf("%.4f s for %.4f s each round, %s", p.RoundExecuted, p.RoundPlanned, late(p.RoundLate)),
		fmt.Sprintf("%s after %s", late(p.Late), rounds(p.Rounds)),
	}
	if p.Unsure >= lateGrain {
		out = append(out, fmt.Sprintf("give or take %s a round, by how soon the host answers and how quickly the board reads", millis(p.Unsure)))
	}
	for _, d := range p.Axes {
		out = append(out, fmt.Sprintf("%s %.3f %s off at the worst, frame %d", Clean(d.Axis), math.Abs(d.Worst), d.Unit, d.Frame))
	}
	if p.Treads > 0 {
		out = append(out, fmt.Sprintf("slower in part than the controller goes: steps and stands by turns there, %d times a round", p.Treads))
	}
	out = append(out, fmt.Sprintf("%d lines a round, none longer than %s", p.Blocks, millis(p.Longest)))
	return append(out, promised(p)...)
}

// promised says what is promised, and how it was found.
func promised(p ontime.Prediction) []string {
	within := make([]string, len(p.Axes))
	for i, d := range p.Axes {
		within[i] = fmt.Sprintf("%s %.3g %s", Clean(d.Axis), d.Wanted, d.Unit)
	}
	ran := "all its lines were"
	if p.Ran < p.Rounds {
		ran = fmt.Sprintf("the lines of its first %s were", rounds(p.Ran))
	}
	late := millis(p.Within) + " in all"
	if p.Within > ontime.PromisedLate {
		late += ", in which nothing moves as far as shows,"
	}
	return []string{fmt.Sprintf("held to %s and %s at each frame; %s run on a model of such a board", late, strings.Join(within, ", "), ran)}
}

// lateGrain is half the last digit that lateness is printed with, in s.
const lateGrain = 0.00005

// longLate is from where lateness is told in s, not in ms.
const longLate = 10

func late(sec float64) string {
	switch {
	case math.Abs(sec) < lateGrain:
		return "on time"
	case sec <= -longLate:
		return fmt.Sprintf("%.1f s early", -sec)
	case sec >= longLate:
		return fmt.Sprintf("%.1f s late", sec)
	case sec < 0:
		return fmt.Sprintf("%.1f ms early", -sec*1000)
	}
	return fmt.Sprintf("%.1f ms late", sec*1000)
}

func rounds(n int64) string {
	if n == 1 {
		return "1 round"
	}
	return fmt.Sprintf("%d rounds", n)
}

func millis(sec float64) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.1f", sec*1000), "0"), ".") + " ms"
}
