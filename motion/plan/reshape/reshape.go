// Package reshape changes what a shot is made of, as text: axes, keys, lamps and the like
// are added with first values that plan, and taken out; a move is made another one, and
// what that does not know is set aside. Every other byte of the text stays. What comes out
// has been planned: a change after which the shot could not be planned any more is none.
package reshape

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
	"seamrail/motion/plan"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// Bench is a shot on its rig, and the text that it was read from.
type Bench struct {
	File string
	Text []byte
	Shot shot.Shot
	Rig  rig.Rig
	Plan *plan.Plan // nil where the text has none as it stands
	// Try is the bench of another text; the error is what keeps it from being planned.
	Try func(text []byte) (Bench, error)
}

// Spot is where on a curve something is to be added; nil for wherever it goes well.
type Spot struct {
	Frame *float64 // captured, from frame 0
	Pos   *float64 // mm or degrees
}

// Done is the text after a change.
type Done struct {
	Text []byte
	At   string   // the path of what was added
	Told []string // what came or went with it
}

// attempt is one way to make a change.
type attempt func() (Done, error)

// first is the first attempt after which the shot is planned. Where none is, the error is
// that of the first.
func (b Bench) first(all ...attempt) (Done, error) {
	return b.firstThat(func(*plan.Plan) bool { return true }, all...)
}

// firstThat is the first attempt of which the plan suits.
func (b Bench) firstThat(suits func(*plan.Plan) bool, all ...attempt) (Done, error) {
	var kept error
	for _, a := range all {
		out, err := a()
		if err == nil && b.Plan == nil { // it could not be planned before either
			return out, nil
		}
		if err == nil {
			var then Bench
			if then, err = b.Try(out.Text); err == nil && suits(then.Plan) {
				return out, nil
			}
		}
		if kept == nil {
			kept = err
		}
	}
	if on := b.scene().Stand.TableAxis; on != "" && asksWhatCarries(kept) {
		return b.firstThat(suits, list.Map(all, func(a attempt) attempt { return b.staysOn(on, a) })...)
	}
	return Done{}, kept
}

const carrierPath = "scene.product.on"

// asksWhatCarries tells whether a shot could not be planned since more than one thing turns.
func asksWhatCarries(err error) bool {
	var all fault.List
	return errors.As(err, &all) && slices.ContainsFunc(all, func(f fault.Fault) bool { return f.Quantity == carrierPath && f.Value == "" })
}

// staysOn is an attempt after which the shot says that what carries the product still does.
func (b Bench) staysOn(on string, a attempt) attempt {
	return func() (Done, error) {
		out, err := a()
		if err != nil || source.Has(out.Text, carrierPath) {
			return out, err
		}
		out.Text, err = source.Put(b.File, out.Text, carrierPath, on, after("scene.product")...)
		out.Told = append(out.Told, "the product stays on "+on+", which is now said; what it stands on is another of its values")
		return out, err
	}
}

// own is a path as it is in the text itself, and whether something stands there.
func (b Bench) own(path string) (string, bool) {
	if b.Shot.Laid.Own != nil {
		return b.Shot.Laid.Own(path)
	}
	return path, source.Has(b.Text, path)
}

// wrong is a fault at a path.
func (b Bench) wrong(path, bound, fit string) error {
	f := fault.Fault{File: b.File, Quantity: path, Bound: bound, Fit: fit}
	return fault.List{f}
}

// parts takes a path apart at its dots and brackets: "scene.lamps[2].fade" is "scene",
// "lamps", "[2]", "fade".
func parts(path string) []string { return source.Steps(path) }

// is tells whether a path is of a kind, "axis.*.keys": a star stands for any one name or
// number. The names are returned in their order.
func is(path, kind string) ([]string, bool) {
	have, want := parts(path), strings.Split(kind, ".")
	if len(have) != len(want) {
		return nil, false
	}
	var names []string
	for i, w := range want {
		switch {
		case w == "*":
			names = append(names, have[i])
		case w != have[i]:
			return nil, false
		}
	}
	return names, true
}

var errNothing = errors.New("nothing can be added there")

func nothing(path string) error { return fmt.Errorf("%s: %w", path, errNothing) }

// at writes into the text one change after another.
type writer struct {
	file string
	text []byte
	err  error
}

func (b Bench) writer() *writer { return &writer{file: b.File, text: b.Text} }

func (w *writer) do(f func() ([]byte, error)) *writer {
	if w.err == nil {
		var out []byte
		if out, w.err = f(); w.err == nil {
			w.text = out
		}
	}
	return w
}

func (w *writer) add(path string, row source.Row, after ...string) *writer {
	return w.do(func() ([]byte, error) { return source.Add(w.file, w.text, path, row, after...) })
}

func (w *writer) put(path string, value any, after ...string) *writer {
	return w.do(func() ([]byte, error) { return source.Put(w.file, w.text, path, value, after...) })
}

func (w *writer) set(path, value string) *writer {
	return w.do(func() ([]byte, error) { return source.Set(w.file, w.text, path, value) })
}

// remove takes out what is there, and nothing where there is none.
func (w *writer) remove(path string) *writer {
	return w.do(func() ([]byte, error) {
		if !source.Has(w.text, path) {
			return w.text, nil
		}
		return source.Remove(w.file, w.text, path)
	})
}

// aside sets aside what is there of the keys of a table.
func (w *writer) aside(word, table string, keys ...string) *writer {
	return w.do(func() ([]byte, error) {
		var paths []string
		for _, key := range keys {
			if path := table + "." + key; source.Has(w.text, path) {
				paths = append(paths, path)
			}
		}
		return source.Aside(w.file, w.text, word, paths...)
	})
}

// back takes back what was set aside in a table under a word, but for what is there by now.
func (w *writer) back(word, table string) *writer {
	return w.do(func() ([]byte, error) {
		var out []source.Kept
		for _, k := range source.KeptUnder(w.text, table) {
			if k.Word == word && !source.Has(w.text, k.Path) {
				out = append(out, k)
			}
		}
		return source.Back(w.text, out...), nil
	})
}

func (w *writer) done(at string, told ...string) (Done, error) {
	return Done{Text: w.text, At: at, Told: told}, w.err
}
