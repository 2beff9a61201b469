package against

import (
	"cmp"
	"fmt"
	"slices"
)

// reasons are the causes that were found and are seen, the one that explains most first.
func (w *witness) reasons() (out []Reason) {
	for _, f := range w.found {
		ok := true
		if f.cause == Blow {
			f, ok = w.told(f)
		}
		if !ok || f.shows <= w.seen {
			continue
		}
		at := w.full.seenAt(f.frame)
		if f.cause.allAlong() {
			at = 0
		}
		out = append(out, Reason{Cause: f.cause, Frame: max(0, at), Lowers: f.lowers, Px: f.shows, Text: w.words(f)})
	}
	slices.SortStableFunc(out, func(a, b Reason) int { return cmp.Compare(b.Lowers, a.Lowers) })
	return out
}

// words are what is said of a cause.
func (w *witness) words(f found) string {
	l := w.full
	at := max(0, l.seenAt(f.frame))
	switch f.cause {
	case LateClock:
		return fmt.Sprintf("the take goes slower than its plan by %.3g %% all along, below 0 faster: two clocks differ, or it is a loop of another length", 100*w.rate().Value)
	case SlowRound:
		return fmt.Sprintf("round %d takes longer or shorter than planned, from frame %.0f on", f.round+1, at)
	case OtherPause:
		if f.round < 0 {
			return fmt.Sprintf("in each round the move after the rest at planned frame %.0f is late or early: a dwell of another length", f.frame)
		}
		return fmt.Sprintf("all after the rest at frame %.0f is late or early: it stood for longer or shorter", at)
	case LostSteps:
		where := "its turn"
		if f.turn.to == 0 {
			where = "the middle of a move"
		}
		return fmt.Sprintf("%s is off from %s at frame %.0f on: lost steps", l.Axes[f.axis].Name, where, at)
	case Backlash:
		b := w.play(f.axis)
		text := fmt.Sprintf("%s lags by %.3g %s after each turn: backlash", l.Axes[f.axis].Name, b.Value, l.Axes[f.axis].unit())
		if turns, _ := l.turns(f.axis); len(turns) == 1 {
			text += ", or steps lost at its turn: with one turn the two look the same"
		}
		return text
	case OtherLaw:
		return fmt.Sprintf("each move of %s gathers speed and slows down otherwise than planned, by up to %.2g px: another law, or ramps of the rig's own; its frame 0 is not told by that", l.Axes[f.axis].Name, f.shows)
	case AfterShake:
		return fmt.Sprintf("it swings after moves, at %.3g Hz: after-shake", f.swing.Frequency)
	case Hum:
		return fmt.Sprintf("it swings all along, at %.3g Hz as it was filmed: a motor, a fan or a step that rings", f.hertz)
	case Blow:
		return fmt.Sprintf("a blow to table or camera at frame %.0f", at)
	case Drift:
		return "the view creeps: stand, table or lens drifts"
	}
	return f.cause.String()
}
