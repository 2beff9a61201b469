package against

import (
	"fmt"
	"math"
	"slices"
)

// unproven is what a take cannot prove.
func (w *witness) unproven(r *Result) (out []string) {
	l := w.full
	for a, axis := range l.Axes {
		switch {
		case l.travel[a] == 0:
		case !r.Axes[a].Told:
			out = append(out, axis.Name+" goes so like another axis that the picture does not tell them apart")
		case axis.Gain == nil && axis.Across && l.PxPerMM > 0:
			out = append(out, "which way "+axis.Name+" goes: nobody has said how it shows")
		case axis.Gain == nil:
			out = append(out, "how far and which way "+axis.Name+" goes: nobody has said how it shows")
		}
		if slices.Contains(l.fitted, a) {
			out = append(out, "how far "+axis.Name+" takes the lens to what it sees: the distance was fitted, and the shot does not tell it")
		}
		if e, _ := l.effect(a); r.Axes[a].Told && e.size()*l.travel[a] < max(1, seenMove*r.Noise) {
			out = append(out, axis.Name+" is not seen to move the picture")
		}
	}
	return out
}

// why is what keeps a take from being known.
func (w *witness) why(r *Result, v Verdict) (out []string) {
	l := w.full
	say := func(bad bool, format string, with ...any) {
		if bad {
			out = append(out, fmt.Sprintf(format, with...))
		}
	}
	say(v.Bound > MostBound, "the picture is known to %.2g px for what lasts a quarter of a second, and %g px is needed: less grain or a larger region would do", v.Bound, MostBound)
	f0 := r.Frame0
	say(!(f0.Sure < mostDoubt), "frame 0 is known to %.2g frames only: its motion is too even to tell; a mark before the take would", f0.Sure)
	say(r.Compared.Share < leastShare, "only %.0f %% of what moves in a round was seen, planned frames %.0f to %.0f", 100*r.Compared.Share, math.Round(r.Compared.From)+0, r.Compared.To)
	known := float64(l.count())
	if from, to, ok := l.burst(); ok {
		say(true, "frames %.0f to %.0f are off by more than chance, by too little or for too short to say what it is", l.recorded(float64(from)), l.recorded(float64(to)))
	}
	say(float64(r.Alone) > mostAlone*known, "%d of %.0f frames say something else than both their sides", r.Alone, known)
	say(float64(r.Compared.Unknown) > mostUnknown*float64(l.n), "of %d of %d frames nobody knows how they lie", r.Compared.Unknown, l.n-l.absent)
	return out
}
