package picture

import (
	"context"

	"seamrail/motion/scene"
)

// Offered is a cure as it is told, and the picture with it in place.
type Offered struct {
	Check, Words string
	Index        int // of the check
	Costs        string
	Motion       Motion
	Scene        scene.Scene
}

// OffersOf are the cures of a picture, to be looked at in full.
func OffersOf(m Motion, s scene.Scene) ([]Offered, error) {
	e, r, err := lookAt(context.Background(), m, s, maxRows)
	if err != nil {
		return nil, err
	}
	t := trials{e: e, base: r.Verdicts, known: map[string]*trial{}}
	t.rows = t.some(r.Rows)
	var out []Offered
	for i, v := range r.Verdicts {
		for _, o := range t.offers(i) {
			if !o.does {
				continue
			}
			motion, s, _ := e.changed(o.remedy)
			out = append(out, Offered{v.Check, o.words, i, o.costs, motion, s})
		}
	}
	return out, nil
}

// Passes tells whether a check is in order.
func (v Verdict) Passes() bool { return v.passes() }

// Rank is how bad a level is.
func (l Level) Rank() int { return l.rank() }
