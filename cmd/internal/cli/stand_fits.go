package cli

import (
	"fmt"
	"slices"

	"seamrail/export/spinwords"
	"seamrail/motion/clock"
	"seamrail/motion/plan"
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
		if !j.keeps(l) {
			continue
		}
		words := fmt.Sprintf("would close: a loop of %d frames (%s s), with nothing else changed", l.Screen, l.OnScreen().Decimal(3))
		if j.asksTooMuch(l) {
			words += "; but it asks for more than the rig can do"
		}
		out = append(out, words)
	}
	for _, l := range a.Loops {
		if l.Certain() {
			out = append(out, "the stand would close best with "+j.loopWords(l))
			break
		}
	}
	for _, f := range a.Fits {
		out = append(out, "would close: "+f.Text)
	}
	for _, s := range j.plan.Stands {
		if words := spinwords.Keeps(s.Seam, spin.Assume{Capture: j.plan.Loop.Clock.Capture}); s.Refuses() && words != "" {
			out = append(out, s.Rig.Name+" is not known to close: "+words)
		}
	}
	return out
}

// keeps tells whether every stand is known to close in a loop.
func (j job) keeps(l clock.Loop) bool {
	return !slices.ContainsFunc(j.plan.Stands, func(s plan.Stand) bool {
		return !s.Spin.Product(s.Rig.Stand).Seam(l, s.Speed).Certain()
	})
}

// asksTooMuch tells whether the shot in another loop of the same clock breaks a
// limit of the rig.
func (j job) asksTooMuch(l clock.Loop) bool {
	changed := j.shot
	changed.Loop = l
	p, err := plan.Build(changed, j.rig)
	return err != nil || len(p.Breaches()) > 0
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
