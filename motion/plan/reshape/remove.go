package reshape

import (
	"fmt"
	"strings"

	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
)

// Remove takes out what is at a path: a table, an item of a list, or a key that may be left
// out. What was set aside for it comes back. What lies under the shot is taken out for
// this shot alone.
func (b Bench) Remove(path string) (Done, error) {
	if n, ok := is(path, "axis.*"); ok {
		return b.removeAxis(n[0])
	}
	local, there := b.own(path)
	if !there {
		return b.without(path)
	}
	return b.first(func() (Done, error) {
		w := b.writer().remove(local)
		_, fade := is(path, "scene.lamps.*.fade")
		_, all := is(path, "scene.lamps.*.keys")
		switch table, _ := split(local); {
		case fade || all:
			w.back(steady, table)
		case strings.HasSuffix(local, ".keys[1]") && source.Items(b.Text, strings.TrimSuffix(local, "[1]")) == 1:
			list := strings.TrimSuffix(local, "[1]") // none is left
			w.remove(list)
			w.back(steady, strings.TrimSuffix(list, ".keys"))
		case path == "camera.pull":
			w.back(oneSet, "camera")
		case path == "frame-by-frame":
			w.back(running, "clock").back(running, "camera")
		}
		return w.done("")
	})
}

// without takes out for this shot what lies under it.
func (b Bench) without(path string) (Done, error) {
	if b.Shot.Laid.Home == nil {
		return Done{}, b.wrong(path, "is not there to be taken out", "")
	}
	row := source.Row{{Key: "without", Value: source.True}}
	kinds := map[string]func() (Done, error){
		"scene.dark":    func() (Done, error) { return b.table(path, row)() },
		"scene.product": func() (Done, error) { return b.table(path, row)() },
		"scene.axis.*":  func() (Done, error) { return b.table(path, row)() },
		"camera.pull":   func() (Done, error) { return b.table(path, row)() },
		"scene.lamps.*": func() (Done, error) { return b.withoutItem("scene.lamps", path, row) },
		"scene.holes.*": func() (Done, error) { return b.withoutItem("scene.holes", path, row) },
	}
	for kind, take := range kinds {
		if _, ok := is(path, kind); ok {
			return b.first(take)
		}
	}
	return Done{}, b.inSetUp(path)
}

// withoutItem takes out an item of a list that lies under the shot, by its name.
func (b Bench) withoutItem(list, path string, row source.Row) (Done, error) {
	i, name := 0, ""
	_, _ = fmt.Sscanf(strings.TrimPrefix(path, list), "[%d]", &i)
	s := b.scene()
	switch {
	case list == "scene.lamps" && i > 0 && i <= len(s.Lamps):
		name = s.Lamps[i-1].Name
	case list == "scene.holes" && i > 0 && i <= len(s.Holes):
		name = s.Holes[i-1].Name
	}
	if name == "" {
		return Done{}, fault.List{{File: b.File, Quantity: path, Bound: "has no name to take it out by"}}
	}
	n := source.Items(b.Text, list) + 1
	return b.writer().add(fmt.Sprintf("%s[%d]", list, n), append(source.Row{{Key: "name", Value: name}}, row...), after(list)...).done("")
}
