package against

import "fmt"

// show is all of a result, for whoever has to find out why a test fails.
func show(r Result) string {
	s := fmt.Sprintf("%s\nframe 0 %v, rate %v, noise %.3f, %d alone, bound %.3f, apart %.3f from %.0f\nwhy %q unproven %q\n",
		r.Verdict.Text, r.Frame0, r.Rate, r.Noise, r.Alone, r.Verdict.Bound, r.Verdict.Apart, r.Verdict.From, r.Verdict.Why, r.Verdict.Unproven)
	for _, c := range r.Verdict.Causes {
		s += fmt.Sprintf("  %v from frame %.1f lowers %.0f shows %.2f px: %s\n", c.Cause, c.Frame, c.Lowers, c.Px, c.Text)
	}
	return s + fmt.Sprintf("rounds %+v\naxes %+v\nshake %+v blows %+v drift %v plain %v left %v compared %v", r.Rounds, r.Axes, r.Shake, r.Blows, r.Drift, r.Plain, r.Left, r.Compared)
}
