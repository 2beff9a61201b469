package drive

import (
	"fmt"
	"math"
)

// counter is how far the controller counts from where the take does, of each axis
// of the plan: an offset (NISTIR 6556, G92) moves words, and what the axis has
// turned since the controller was started is still in its own count.
type counter struct {
	far     []float64 // its own place, less that of the words; mm or degrees
	guessed bool      // from where it counts, and nobody has been told so
	most    int64     // rounds of the take in hand that it can count
}

// recount notes where the controller counts from now that it has been told a place;
// the axes stood at, by what it was told before.
func (t *lineController) recount(stood, at []float64) {
	if own, ok := t.onMachine(); ok {
		t.counter.far = minus(own, at)
		return
	}
	if t.counter.far == nil { // it is taken to have been switched on just now
		t.counter.far, t.counter.guessed = make([]float64, len(at)), true
		return
	}
	for i := range at {
		t.counter.far[i] += stood[i] - at[i]
	}
}

func minus(a, b []float64) []float64 {
	out := make([]float64, len(a))
	for i := range a {
		out[i] = a[i] - b[i]
	}
	return out
}

// countable returns how many rounds of the take the controller can count, from
// where it stands, and the axis of which it is the least; endless where any.
func (t *lineController) countable() (rounds int64, axis int) {
	rounds = endless
	for i, a := range t.axes {
		gain := t.Trajectory.Advance(i).Float()
		most := t.controller.Countable(a.StepsPerUnit.Float())
		if gain == 0 || math.IsInf(most, 1) {
			continue
		}
		left := most - math.Copysign(1, gain)*(t.counter.far[i]+t.start[i])
		if n := int64(max(left, 0) / math.Abs(gain)); n < rounds {
			rounds, axis = n, i
		}
	}
	return rounds, axis
}

// counts refuses a take that the controller cannot count to the end, and says how
// many rounds of one that goes on until asked it can.
func (t *lineController) counts() error {
	most, i := t.countable()
	if t.counter.guessed && most < endless {
		t.counter.guessed = false
		t.Observer.Say(fmt.Sprintf("it does not report its own count: it is taken to have been switched on just before this run; if axis %s had turned far before, switch it off and on", t.axes[i].Name))
	}
	if most >= max(t.Rounds, 1) {
		t.counter.most = most
		return nil
	}
	a := t.axes[i]
	return failed(Outcounted, "axis %s: the controller counts on from %.0f deg, and further up its numbers of 24 bits do not tell its steps well apart: %d rounds more would do, and the take has %d. "+
		"Switch it off and on, which begins its count anew, and bring every axis to the start", a.Name, t.counter.far[i]+t.start[i], most, max(t.Rounds, 1))
}

// ends ends a take that goes on until asked before it is counted out.
func (c *counter) ends(t *lineController, p *pass) {
	if p.total == 0 && p.rounds >= c.most {
		p.finished = true
		t.finish(p)
		t.Observer.Say(fmt.Sprintf("the take ends by itself after %d rounds: the controller can count no further up", p.total))
	}
}
