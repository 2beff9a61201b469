package reshape

import (
	"fmt"
	"slices"

	"seamrail/motion/base/source"
	"seamrail/motion/move"
	"seamrail/motion/spec/shot"
)

// turning is the word under which it is set aside that a cue waits for an axis to turn
// round, while that does not.
const turning = "turnaround"

// waiting are the keys by which a cue waits.
var waiting = []string{"at", "axis", "which"}

// cues lets go of an axis that no longer turns round: the time at which it did so far takes
// its place. Where it turns round again, they wait for it again.
func (c change) cues(w *writer) *writer {
	past, known := c.past(c.name)
	rounds := turnsRound(c.kind)
	for i, q := range c.Shot.Raw().Cue {
		path := fmt.Sprintf("cue[%d]", i+1)
		if rounds {
			c.wait(w, path)
			continue
		}
		if known && q.Axis.Text == c.name || known && !q.Axis.Set && len(c.Shot.Axes) == 1 {
			if f, ok := event(past, q); ok {
				w.aside(turning, path, waiting...).put(path+".at", move.FramesText(f))
			}
		}
	}
	return w
}

// wait has a cue wait for the axis again, if it did before.
func (c change) wait(w *writer, path string) {
	if w.err != nil {
		return
	}
	kept := source.KeptUnder(w.text, path)
	if !slices.ContainsFunc(kept, func(k source.Kept) bool { return k.Word == turning }) {
		return
	}
	again := *w
	if again.remove(path + ".at"); again.err == nil {
		again.back(turning, path)
	}
	if again.err == nil && c.waitsForThis(again.text, path) {
		w.text = again.text
	}
}

func (c change) waitsForThis(text []byte, path string) bool {
	name, named := source.Value(text, path+".axis")
	return !named || name == c.name
}

// turnsRound tells whether an axis that has a move may turn round.
func turnsRound(kind string) bool {
	switch move.Bare(kind).(type) {
	case move.Stayer, move.Turner, move.Passer:
		return false
	}
	return true
}

// event is the frame at which a cue waits for an axis, as that went so far.
func event(p move.Past, q shot.RawCue) (int64, bool) {
	n := 0
	_, _ = fmt.Sscan(q.Which.Text, &n)
	rests := p.Rests(q.At.Text == shot.NearEnd)
	switch n = max(n, 1); {
	case n > len(rests):
		return 0, false
	case q.At.Text == shot.Turnaround:
		return (rests[n-1].From + rests[n-1].To) / 2, true
	}
	return rests[n-1].From, q.At.Text == shot.FarEnd || q.At.Text == shot.NearEnd
}
