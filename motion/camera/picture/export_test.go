package picture

import "seamrail/motion/scene"

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
	e, r, err := look(m, s)
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
			x := Offered{v.Check, o.words, i, o.costs, m, e.resolved()}
			apply(o.scene, &x.Scene)
			if o.moves != nil {
				x.Motion = o.moves
			}
			out = append(out, x)
		}
	}
	return out, nil
}

// Passes tells whether a check is in order.
func (v Verdict) Passes() bool { return v.passes() }

// Rank is how bad a level is.
func (l Level) Rank() int { return l.rank() }
