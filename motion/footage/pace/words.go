package pace

import (
	"fmt"
	"math"
)

// Sentences are what is to be told of a take, the verdict first, then numbers in the order in which
// they matter.
func (r Result) Sentences() []string {
	out := []string{r.Verdict.Text}
	for _, p := range r.Verdict.Proven {
		out = append(out, "seen: "+p)
	}
	// What takes the moves for other ones is surer of where they begin than it may be: a place is
	// told where the moves are those of the plan.
	if r.Frame0.Known && r.Verdict.Kind == ByTimes {
		out = append(out, fmt.Sprintf("frame 0 of the plan is frame %.2f of the recording, within %.2f (one sigma), by %s", r.Frame0.Value, r.Frame0.Sure, r.Frame0.Rests))
	}
	for _, n := range r.Rounds {
		out = append(out, n.sentence())
	}
	if r.Back.Known {
		out = append(out, fmt.Sprintf("ways back go as the ways there within %.2f frames, in %d parts", r.Back.Apart.Value, r.Back.Parts))
	}
	if rate := r.Rate; !math.IsInf(rate.Sure, 0) && math.Abs(rate.Value) > certain*rate.Sure {
		out = append(out, fmt.Sprintf("the take goes slower than its plan by %.0f ppm, within %.0f; below 0 faster", 1e6*rate.Value, 1e6*rate.Sure))
	}
	if r.Spins {
		out = append(out, "something turns all along that the plan does not have")
	}
	return out
}

// sentence is what is told of a round; rounds are counted from 1 there.
func (n Round) sentence() string {
	if !n.Known {
		return fmt.Sprintf("round %d cannot be laid on round 1: its frames are not like those", n.Index+1)
	}
	text := fmt.Sprintf("round %d is %s beside round 1, %.1f ms, within %.2f frames; they are alike to %.1f %%", n.Index+1, lateBy(n.Late.Value), math.Abs(n.MS.Value), n.Late.Sure, 100*(1-n.Unlike))
	if n.From >= 0 {
		text += fmt.Sprintf("; it is so from frame %.0f on", n.From)
	}
	return text
}
