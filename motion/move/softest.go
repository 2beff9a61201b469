package move

import (
	"slices"

	"seamrail/motion/base/unit"
	"seamrail/motion/law"
	"seamrail/motion/law/optimal"
)

// The orders of the key least, as the file names them.
var orders = []string{"acceleration", "jerk", "snap"}

const defaultOrder = "jerk"

// soft reads what a law of least peak is to make least and to leave at rest.
func (r lawReader) soft(spec *law.Spec, key, name string) bool {
	spec.Least = optimal.Jerk
	if r.least.Set {
		w, _ := r.Choice(r.least, r.Path+law.MinKey, orders...)
		spec.Least = optimal.Acceleration + max(0, slices.Index(orders, w))
	} else if key == "law" || !takes(r.law.Text, law.MinKey) {
		r.Default(r.Path+law.MinKey, defaultOrder, "the greatest jerk as small as can be")
	}
	if !takes(name, law.SwingsKey) {
		return true
	}
	first := key == "law" || !takes(r.law.Text, law.SwingsKey)
	if !r.swings.Set {
		if first {
			r.Missing(r.At, r.Path+law.SwingsKey, `"6.4"; "seamrail soften" works it out from the rig's frequency`)
		}
		return false
	}
	n, ok := r.Quantity(r.swings, r.Path+law.SwingsKey, unit.Number)
	if !ok {
		return false
	}
	spec.Swings = n.Float()
	if !takes(name, law.DampingKey) {
		return true
	}
	if !r.damping.Set {
		if first {
			r.Default(r.Path+law.DampingKey, "0", "the law leaves an undamped swing at rest")
		}
		return true
	}
	d, ok := r.Quantity(r.damping, r.Path+law.DampingKey, unit.Number)
	spec.Damping = d.Float()
	return ok
}
