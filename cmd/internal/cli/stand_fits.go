package cli

import (
	"fmt"

	"seamrail/motion/clock"
	"seamrail/motion/spin"
)

// standFits says which loops would close on the stands of a shot that states a
// bound and breaks it.
func (j job) standFits() []string {
	refused := false
	for _, s := range j.plan.Stands {
		refused = refused || s.Refuses()
	}
	if !refused {
		return nil
	}
	a, err := spin.Find(j.plan.SpinQuery())
	if err != nil {
		return []string{"no loop was looked for: " + err.Error()}
	}
	var out []string
	for _, l := range j.plan.Nearest() {
		out = append(out, fmt.Sprintf("would close: a loop of %d frames (%s s), with nothing else changed", l.Screen, l.OnScreen().Decimal(3)))
	}
	for _, l := range a.Loops {
		if l.Closes() {
			out = append(out, "would close best: "+j.loopWords(l))
			break
		}
	}
	for _, f := range a.Fits {
		out = append(out, "would close: "+f.Text)
	}
	return out
}

// loopWords tells the length of a loop and what else of the shot it changes.
func (j job) loopWords(l spin.Loop) string {
	words := fmt.Sprintf("a loop of %d frames (%s s)", l.Screen, l.OnScreen().Decimal(3))
	if !l.Clock.Capture.Equal(j.plan.Loop.Clock.Capture) {
		words += ", captured at " + clock.RateText(l.Clock.Capture)
	}
	for i, s := range l.Seams {
		if s.Speed.Name != j.plan.Stands[i].Speed.Name {
			words += fmt.Sprintf(", %s at its speed %s", s.Product.Stand.Name, s.Speed.Name)
		}
	}
	return words
}
