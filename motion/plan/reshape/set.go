package reshape

import (
	"seamrail/motion/base/source"
	"seamrail/motion/move"
)

// sliding are the keys of an axis that carries the camera alone.
var sliding = []string{"heading", "rise", "measured-at"}

// Set gives a value another one. A choice that needs others beside it has them filled in,
// and what does not go with it set aside. After it the shot can still be planned, or it is
// refused.
func (b Bench) Set(path, value string) (Done, error) {
	if n, ok := is(path, "axis.*.move"); ok {
		return b.Kind(n[0], value)
	}
	plain := func() (Done, error) {
		text, err := b.write(path, value)
		return Done{Text: text, At: path}, err
	}
	all := []attempt{plain}
	if n, ok := is(path, "scene.axis.*.role"); ok {
		all = append(all, func() (Done, error) { return b.roleOf(path, n[0], value) })
	}
	if path == "scene.product.shape" {
		all = append(all, func() (Done, error) { return b.outline(path, value) })
	}
	if n, ok := is(path, "axis.*.*"); ok {
		all = append(all, func() (Done, error) { return b.beside(path, n[0], n[1], value) })
	}
	return b.first(all...)
}

// write is the text with a value in the place of another, over what lies under it.
func (b Bench) write(path, value string) ([]byte, error) {
	if set := b.Shot.Laid.Set; set != nil {
		return set(b.Text, path, value)
	}
	if !source.Has(b.Text, path) {
		if table, _ := split(path); table != "" && source.Has(b.Text, table) || schemaOf(table) != nil {
			if out, err := source.Put(b.File, b.Text, path, value, after(table)...); err == nil {
				return out, nil
			}
		}
	}
	return source.Set(b.File, b.Text, path, value)
}

// roleOf gives an axis another part in the picture: what is said of its way belongs to one
// that carries the camera.
func (b Bench) roleOf(path, name, role string) (Done, error) {
	table := "scene." + source.Join("axis", name)
	w := b.writer()
	if role == "slide" {
		w.back("slide", table)
	} else {
		w.aside("slide", table, sliding...)
	}
	return w.set(path, role).done(path)
}

// beside gives a key of a move another value, with what that takes besides.
func (b Bench) beside(path, name, key, value string) (Done, error) {
	m, _ := b.Shot.Axis(name)
	k, _ := move.Named(m.Kind())
	p, known := b.past(name)
	s, sided := k.(move.Sided)
	if !known || !sided {
		return Done{}, nothing(path)
	}
	row, gone, ok := s.Beside(key, value, p)
	if !ok {
		return Done{}, nothing(path)
	}
	table, w := source.Join("axis", name), b.writer()
	w.aside(key, table, gone...)
	if len(gone) == 0 {
		w.back(key, table)
	}
	for _, one := range row {
		if w.err == nil && !source.Has(w.text, table+"."+one.Key) {
			w.put(table+"."+one.Key, one.Value)
		}
	}
	return w.set(path, value).done(path)
}
