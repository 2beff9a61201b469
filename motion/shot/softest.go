package shot

import (
	"errors"
	"fmt"
	"slices"

	"seamrail/motion/exact"
	"seamrail/motion/law"
	"seamrail/motion/optimal"
	"seamrail/motion/source"
	"seamrail/motion/unit"
)

// The orders of the key least, as the file names them.
var orders = []string{"acceleration", "jerk", "snap"}

const defaultOrder = "jerk"

// softNames are the laws that package optimal makes.
var softNames = []string{optimal.Name, optimal.QuietName, optimal.WideName}

func soft(name string) bool { return slices.Contains(softNames, name) }

// softKeys are the keys of these laws, with what a law that does not have one is
// told.
func (r mover) softKeys() []struct {
	key, fit string
	text     source.Text
} {
	return []struct {
		key, fit string
		text     source.Text
	}{
		{"least", `it is for law = "softest", "quiet" or "quiet-wide"`, r.raw.Least},
		{"swings", `it is for law = "quiet" or "quiet-wide"`, r.raw.Swings},
		{"swing-damping", `it is for law = "quiet"`, r.raw.SwingDamping},
	}
}

// softStrays reports keys of the softest laws beside laws that have none of them.
func (r mover) softStrays(names ...string) {
	means := map[string]bool{}
	for _, n := range names {
		means["least"] = means["least"] || soft(n)
		means["swings"] = means["swings"] || soft(n) && n != optimal.Name
		means["swing-damping"] = means["swing-damping"] || n == optimal.QuietName
	}
	for _, k := range r.softKeys() {
		if k.text.Set && !means[k.key] {
			r.Wrong(k.text, r.path+k.key, "has no meaning for this law", k.fit)
		}
	}
}

// softest makes one of these laws; its swings are a share of those that are
// stated, as the way back may be quicker than the way out.
func (r mover) softest(t source.Text, key, name string, share float64) law.Law {
	order := optimal.Jerk
	if r.raw.Least.Set {
		w, _ := r.Choice(r.raw.Least, r.path+"least", orders...)
		order = optimal.Acceleration + max(0, slices.Index(orders, w))
	} else if key == "law" || !soft(r.raw.Law.Text) {
		r.Default(r.path+"least", defaultOrder, "the greatest jerk as small as can be")
	}
	q, ok := r.quiet(name, key)
	if !ok {
		return nil
	}
	q.Swings *= share
	s, err := optimal.Soften(order, q)
	if err != nil {
		if share != 1 {
			err = fmt.Errorf("%w (that is the way back)", err)
		}
		r.Fail(t, r.path+key, errors.New("cannot be: "+err.Error()))
		return nil
	}
	return s.Law
}

// quiet reads what the law is to leave at rest.
func (r mover) quiet(name, key string) (optimal.Quiet, bool) {
	if name == optimal.Name {
		return optimal.Quiet{}, true
	}
	q := optimal.Quiet{Robust: name == optimal.WideName}
	first := key == "law" || !soft(r.raw.Law.Text) || r.raw.Law.Text == optimal.Name
	if !r.raw.Swings.Set {
		if first {
			r.Missing(r.raw.Place, r.path+"swings", `"6.4"; "seamrail soften" works it out from the rig's frequency`)
		}
		return q, false
	}
	n, ok := r.Quantity(r.raw.Swings, r.path+"swings", unit.Number)
	if !ok {
		return q, false
	}
	q.Swings = n.Float()
	if name != optimal.QuietName {
		return q, true
	}
	if !r.raw.SwingDamping.Set {
		if first {
			r.Default(r.path+"swing-damping", "0", "the law leaves an undamped swing at rest")
		}
		return q, true
	}
	d, ok := r.Quantity(r.raw.SwingDamping, r.path+"swing-damping", unit.Number)
	q.Damping = d.Float()
	return q, ok
}

// backShare is how long the way back takes, in ways out.
func (r mover) backShare() float64 {
	q, err := unit.ParseAs(r.raw.OutShare.Text, unit.Number)
	if err != nil || !inside(q.Value) {
		return 1
	}
	return exact.Int(1).Sub(q.Value).Quo(q.Value).Float()
}
