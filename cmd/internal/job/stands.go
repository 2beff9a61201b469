package job

import (
	"fmt"

	"seamrail/export/report/spinreport"
	"seamrail/motion/clock"
	"seamrail/motion/reach"
	"seamrail/motion/shot"
	"seamrail/motion/spin"
)

// StandFits says which loops would close on the stands of a shot that states a
// bound and breaks it.
func (j *Job) StandFits() []string {
	refused := false
	for _, s := range j.Plan.Stands {
		refused = refused || s.Refuses()
	}
	if !refused {
		return nil
	}
	a, err := spin.Find(j.Plan.SpinQuery())
	if err != nil {
		return []string{"no loop was looked for: " + err.Error()}
	}
	var out []string
	for _, l := range j.Plan.Nearest() {
		if reach.Closes(withLoop(j.Shot, l), j.Rig) {
			out = append(out, fmt.Sprintf("would close: a loop of %d frames (%s s), with nothing else changed", l.Screen, l.OnScreen().Decimal(3)))
		}
	}
	for _, l := range a.Loops {
		if l.Certain() && j.closes(l) {
			out = append(out, "the stand would close best with "+j.loopWords(l))
			break
		}
	}
	for _, f := range a.Fits {
		if f.Loop == nil || j.closes(*f.Loop) {
			out = append(out, f.Offer())
		}
	}
	for _, s := range j.Plan.Stands {
		if words := spinreport.Keeps(s.Seam, spin.Assume{Capture: j.Plan.Loop.Clock.Capture}); s.Refuses() && words != "" {
			out = append(out, s.Rig.Name+" is not known to close: "+words)
		}
	}
	return out
}

func withLoop(s shot.Shot, l clock.Loop) shot.Shot {
	s.Loop = l
	return s
}

// closes tells whether the shot in such a loop is within the rig's limits and closes:
// what is offered has been planned.
func (j *Job) closes(l spin.Loop) bool { return reach.Closes(reach.AtLoop(j.Shot, l), j.Rig) }

// loopWords tells the length of a loop and what else of the shot it changes.
func (j *Job) loopWords(l spin.Loop) string {
	words := fmt.Sprintf("a loop of %d frames (%s s)", l.Screen, l.OnScreen().Decimal(3))
	if !l.Clock.Capture.Equal(j.Plan.Loop.Clock.Capture) {
		words += ", captured at " + clock.RateText(l.Clock.Capture)
	}
	for i, s := range l.Seams {
		if s.Speed.Name != j.Plan.Stands[i].Speed.Name {
			words += fmt.Sprintf(", %s at its speed %s", s.Product.Stand.Name, s.Speed.Name)
		}
	}
	return words
}
