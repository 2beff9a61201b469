package reshape

import (
	"fmt"
	"slices"

	"seamrail/motion/base/source"
	"seamrail/motion/move"
	"seamrail/motion/plan"
)

// addAxis gives an axis of the rig a move that is within its travel and, if any is, within
// its limits: there and back about the middle, round by a face, or at rest.
func (b Bench) addAxis(name string) (Done, error) {
	a, ok := b.Rig.Axis(name)
	path := source.Join("axis", name)
	if !ok {
		return Done{}, b.wrong(path, "is not on the rig", "it has "+fmt.Sprint(b.Rig.Names()))
	}
	if _, moves := b.Shot.Axis(name); moves {
		return Done{}, b.wrong(path, "moves in this shot already", "change its move")
	}
	var all []attempt
	for _, row := range move.Firsts(b.axle(a), b.faces()) {
		all = append(all, func() (Done, error) {
			return b.writer().add(path, row, append([]string{"axis"}, after(path)...)...).done(path)
		})
	}
	gentle := func(p *plan.Plan) bool {
		return !slices.ContainsFunc(p.Breaches(), func(x plan.Breach) bool { return x.Axis == name })
	}
	if out, err := b.firstThat(gentle, all...); err == nil {
		return out, nil
	}
	return b.first(all...)
}

// faces are those of the product that look alike; 1 where nothing says so.
func (b Bench) faces() int64 {
	if b.Shot.Scene == nil {
		return 1
	}
	return max(1, int64(b.Shot.Scene.Product.Symmetry()))
}

// removeAxis takes an axis out with what speaks of it: its part in the picture, what
// follows it, cues that wait for it.
func (b Bench) removeAxis(name string) (Done, error) {
	raw, w := b.Shot.Raw(), b.writer()
	gone, told := []string{name}, []string{}
	for i := 0; i < len(gone); i++ {
		for _, other := range source.InOrder(raw.Axis, func(a move.Raw) source.Place { return a.Place }) {
			if raw.Axis[other].Follow.Text == gone[i] && !slices.Contains(gone, other) {
				gone = append(gone, other)
				told = append(told, fmt.Sprintf("%s, which follows %s", other, gone[i]))
			}
		}
	}
	for i, c := range slices.Backward(raw.Cue) {
		if path := fmt.Sprintf("cue[%d]", i+1); slices.Contains(gone, c.Axis.Text) {
			w.remove(path)
			told = append(told, fmt.Sprintf("the cue %q, which waits for %s", c.Name.Text, c.Axis.Text))
		}
	}
	for _, n := range gone {
		w.remove(source.Join("axis", n))
		if path, own := b.own("scene." + source.Join("axis", n)); own {
			w.remove(path)
		}
	}
	if raw.Scene != nil && raw.Scene.Product != nil && slices.Contains(gone, raw.Scene.Product.On.Text) {
		if path, own := b.own("scene.product.on"); own {
			w.remove(path)
		}
	}
	return b.first(func() (Done, error) { return w.done("", told...) })
}
