package reshape

import (
	"fmt"
	"slices"

	"seamrail/motion/base/source"
	"seamrail/motion/move"
)

// Kind makes the move of an axis another one. Keys that both have stay, with what they
// say; others are set aside in the table, under the name of the move that they are of, and
// come back with it. What the new move needs besides is filled in from where the axis went
// so far and when.
func (b Bench) Kind(name, kind string) (Done, error) {
	path := source.Join("axis", name)
	m, ok := b.Shot.Axis(name)
	if !ok {
		return Done{}, b.wrong(path, "is no axis of this shot", "")
	}
	if !slices.Contains(move.Names(), kind) {
		return Done{}, b.wrong(path+".move", "is no move", fmt.Sprint("there are ", move.Names()))
	}
	old := m.Kind()
	if old == kind {
		return Done{Text: b.Text, At: path + ".move"}, nil
	}
	c := change{Bench: b, path: path, name: name, old: old, kind: kind}
	if out, ok := c.undone(); ok {
		return out, nil
	}
	fills := c.fills(name, kind)
	var all []attempt
	for _, keep := range []bool{true, false} {
		for _, f := range fills {
			all = append(all, func() (Done, error) { return c.to(f, keep, true) })
		}
	}
	for _, f := range fills {
		all = append(all, func() (Done, error) { return c.to(f, false, false) })
	}
	return b.first(all...)
}

// change is that of a move into one of another kind.
type change struct {
	Bench
	path, name string
	old, kind  string
}

// shared tells whether two moves mean the same by a key.
func shared(a, b, key string) bool {
	for _, name := range []string{a, b} {
		k, ok := move.Named(name)
		if !ok || slices.Contains(k.Apart(), key) || !slices.Contains(move.Takes(name), key) {
			return false
		}
	}
	return true
}

// to is the text with the other move. With keep, keys that both have stay; with back, what
// was set aside comes back.
func (c change) to(fill source.Row, keep, back bool) (Done, error) {
	takes := move.Takes(c.kind)
	var gone []string
	for _, key := range source.Under(c.Text, c.path) {
		stays := slices.Contains(takes, key) && shared(c.old, c.kind, key) && (keep || essential(key))
		if key != "move" && !stays {
			gone = append(gone, key)
		}
	}
	w := c.writer().aside(c.old, c.path, gone...)
	if w.err == nil && back {
		w.text = c.backed(w.text)
	}
	if source.Has(w.text, c.path+".move") {
		w.set(c.path+".move", c.kind)
	} else {
		w.put(c.path+".move", c.kind)
	}
	for _, p := range fill {
		if w.err == nil && !source.Has(w.text, c.path+"."+p.Key) {
			w.put(c.path+"."+p.Key, p.Value)
		}
	}
	return c.cues(w).done(c.path + ".move")
}

// essential are keys of places, which stay where the finer ones do not suit.
func essential(key string) bool { return key == "from" || key == "to" }

// backed is a text with what was set aside of the new move, or under another one that
// means the same by it.
func (c change) backed(text []byte) []byte {
	takes := move.Takes(c.kind)
	var out []source.Kept
	have := map[string]bool{}
	for _, own := range []bool{true, false} {
		for _, k := range source.KeptUnder(text, c.path) {
			_, key := split(k.Path)
			if (k.Word == c.kind) == own && (own || k.Word != c.old && shared(k.Word, c.kind, key)) &&
				slices.Contains(takes, key) && !have[key] && !source.Has(text, k.Path) {
				out = append(out, k)
				have[key] = true
			}
		}
	}
	return source.Back(text, out...)
}

// undone is the text before the last change, where that was from the new move to the old
// one and nothing has been changed since: then there is nothing to set aside.
func (c change) undone() (Done, bool) {
	if !slices.ContainsFunc(source.KeptUnder(c.Text, c.path), func(k source.Kept) bool { return k.Word == c.kind }) || c.Plan == nil {
		return Done{}, false
	}
	w := c.writer()
	for _, key := range source.Under(c.Text, c.path) {
		if key != "move" && !(slices.Contains(move.Takes(c.kind), key) && shared(c.old, c.kind, key)) {
			w.remove(c.path + "." + key)
		}
	}
	if w.err != nil {
		return Done{}, false
	}
	w.text = c.backed(w.text)
	if c.cues(w.set(c.path+".move", c.kind)); w.err != nil {
		return Done{}, false
	}
	before, err := c.Try(w.text)
	if err != nil {
		return Done{}, false
	}
	there := change{Bench: before, path: c.path, name: c.name, old: c.kind, kind: c.old}
	for _, f := range there.fills(c.name, c.old) {
		if out, err := there.to(f, true, true); err == nil && string(out.Text) == string(c.Text) {
			return Done{Text: w.text, At: c.path + ".move"}, true
		}
	}
	return Done{}, false
}

// Choice is something to choose, and what it means in plain words.
type Choice struct{ Name, Words string }

// Moves are those that an axis can have, in the order in which they are listed.
func (b Bench) Moves(name string) []Choice {
	p, known := b.past(name)
	var out []Choice
	for _, n := range move.Names() {
		if k, ok := move.Named(n); ok && known && k.Suited(p) {
			out = append(out, Choice{n, k.Plain()})
		}
	}
	return out
}
