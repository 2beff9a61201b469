package reshape

import (
	"fmt"
	"strconv"
	"strings"

	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
	"seamrail/motion/move"
	"seamrail/motion/spec/shot"
)

// Words under which something is set aside for what is added in its place.
const (
	steady  = "steady"    // the level of a lamp that fades now
	oneSet  = "one-focus" // the focus of a lens that is pulled now
	running = "running"   // the rates of a camera that stands still now
)

// Add adds what belongs at a path: an axis of the rig ("axis.table"), an item of a list
// ("scene.lamps"), a table ("scene.dark"), or a key of a table with what it could be.
func (b Bench) Add(path string, at Spot) (Done, error) {
	if n, ok := is(path, "axis.*"); ok {
		return b.addAxis(n[0])
	}
	if n, ok := is(path, "axis.*.keys"); ok {
		return b.addKey(n[0], at)
	}
	if _, ok := is(path, "cue"); ok {
		return b.first(list.Map(b.cues(at), func(r source.Row) attempt { return b.item(path, r) })...)
	}
	if rows, ok := b.tables(path); ok {
		return b.first(list.Map(rows, func(r source.Row) attempt { return b.table(path, r) })...)
	}
	switch path {
	case "scene.lamps":
		return b.first(b.item(path, b.lamp()))
	case "scene.holes":
		return b.first(b.item(path, b.hole()))
	case "camera.scale":
		return b.first(func() (Done, error) {
			return b.writer().put(path, []source.Row{
				{{Key: "marked", Value: "600 mm"}, {Key: "at", Value: "30 deg"}}, {{Key: "marked", Value: "450 mm"}, {Key: "at", Value: "60 deg"}},
			}, after("camera")...).done(path)
		})
	case "camera.pull":
		return b.addPull()
	case "camera.pull.keys":
		if raw := b.Shot.Raw(); raw.Camera != nil && raw.Camera.Pull != nil {
			return b.addMark(path, "focus", list.Map(raw.Camera.Pull.Keys, func(k shot.RawMark) markKey { return markKey{k.At.Text, k.Hold.Text, k.Focus.Text} }), at)
		}
	case "frame-by-frame":
		return b.addByFrame()
	}
	if n, ok := is(path, "scene.lamps.*.fade"); ok {
		return b.dim(n[0], func(w *writer, lamp string, i int) *writer {
			return w.add(lamp+".fade", b.fading(i), after("scene.lamps")...)
		}, "fade")
	}
	if n, ok := is(path, "scene.lamps.*.keys"); ok {
		return b.addLampKey(n[0], at)
	}
	return b.addValue(path)
}

// item adds an item to a list, behind those that are there.
func (b Bench) item(path string, row source.Row) attempt {
	return func() (Done, error) {
		n := source.Items(b.Text, path) + 1
		at := fmt.Sprintf("%s[%d]", path, b.items(path)+1)
		return b.writer().add(fmt.Sprintf("%s[%d]", path, n), row, after(path)...).done(at)
	}
}

// items is how many a list has, with those that lie under the shot.
func (b Bench) items(path string) int {
	switch path {
	case "cue":
		return len(b.Shot.Raw().Cue)
	case "scene.lamps":
		return len(b.scene().Lamps)
	}
	return len(b.scene().Holes)
}

func (b Bench) table(path string, row source.Row) attempt {
	return func() (Done, error) { return b.writer().add(path, row, after(path)...).done(path) }
}

// tables are the first values of a table, the best first.
func (b Bench) tables(path string) ([]source.Row, bool) {
	if n, ok := is(path, "scene.axis.*"); ok {
		return []source.Row{b.role(n[0]), {{Key: "role", Value: "none"}}}, true
	}
	if n, ok := is(path, "spin.*"); ok {
		return b.spins(n[0]), true
	}
	switch path {
	case "scene":
		return []source.Row{{{Key: "distance", Value: mm(firstDistance)}}}, true
	case "scene.product":
		return []source.Row{product()}, true
	case "scene.dark":
		return []source.Row{b.dark()}, true
	case "camera":
		return []source.Row{camera()}, true
	case "music":
		return []source.Row{{{Key: "tempo", Value: "120 per minute"}}}, true
	case "sync-mark":
		return []source.Row{{{Key: "with", Value: "click"}}, {{Key: "with", Value: "hand"}}}, true
	case "take":
		return []source.Row{{{Key: "rounds", Value: fmt.Sprint(b.Shot.Rounds)}}}, true
	case "picture":
		return []source.Row{{}}, true
	}
	return nil, false
}

// spins are a stand at each of its speeds.
func (b Bench) spins(name string) []source.Row {
	s, _ := b.Rig.Stand(name)
	out := list.Map(s.SpeedNames(), func(n string) source.Row { return source.Row{{Key: "speed", Value: n}} })
	if len(out) == 0 {
		return []source.Row{{}}
	}
	return out
}

// addPull lets a hand pull the focus, in place of the one that is stated.
func (b Bench) addPull() (Done, error) {
	return b.first(list.Map(b.pulls(), func(r source.Row) attempt {
		return func() (Done, error) {
			return b.writer().aside(oneSet, "camera", "focus", "magnification").add("camera.pull", r, "camera").done("camera.pull")
		}
	})...)
}

// addByFrame has the shot taken frame by frame: what goes by a running camera is set aside.
func (b Bench) addByFrame() (Done, error) {
	row := source.Row{}
	if raw := b.Shot.Raw(); raw.Camera == nil || !raw.Camera.Shutter.Set || b.scene().Camera.ShutterAngle.Given {
		row = append(row, source.Pair{Key: "exposure", Value: "1/4 s"})
	}
	return b.first(func() (Done, error) {
		w := b.writer().aside(running, "clock", "capture", "retime", "pace")
		if len(row) > 0 {
			w.aside(running, "camera", "shutter")
		}
		return w.add("frame-by-frame", row, "clock").done("frame-by-frame")
	})
}

// dim changes how bright a lamp is over the loop: what said so before is set aside.
func (b Bench) dim(item string, put func(w *writer, lamp string, i int) *writer, key string) (Done, error) {
	i, _ := strconv.Atoi(strings.Trim(item, "[]"))
	path := "scene.lamps" + item
	if i < 1 || i > len(b.scene().Lamps) {
		return Done{}, nothing(path)
	}
	return b.first(func() (Done, error) {
		own, there := b.own(path)
		w := b.writer()
		if !there { // it lies under the shot, which says what it changes of it
			own = fmt.Sprintf("scene.lamps[%d]", source.Items(b.Text, "scene.lamps")+1)
			w.add(own, source.Row{{Key: "name", Value: b.scene().Lamps[i-1].Name}}, after("scene.lamps")...)
		}
		w.aside(steady, own, "level", "fade", "keys", "between", "seam")
		return put(w, own, i-1).done(path + "." + key)
	})
}

func (b Bench) addLampKey(item string, at Spot) (Done, error) {
	raw := b.Shot.Raw()
	if i, _ := strconv.Atoi(strings.Trim(item, "[]")); raw.Scene != nil && i > 0 && i <= len(raw.Scene.Lamps) && raw.Scene.Lamps[i-1].Keys != nil {
		return b.addMark("scene.lamps"+item+".keys", "level", list.Map(raw.Scene.Lamps[i-1].Keys, func(k shot.RawLampKey) markKey { return markKey{k.At.Text, k.Hold.Text, k.Level.Text} }), at)
	}
	return b.dim(item, func(w *writer, lamp string, i int) *writer { return w.put(lamp+".keys", b.lampKeys(i)) }, "keys")
}

// addValue gives a key that is left out a value: a rest as long as suits the loop, and
// else what the schema has for it.
func (b Bench) addValue(path string) (Done, error) {
	k, ok := keyOf(path)
	if !ok {
		return Done{}, nothing(path)
	}
	table, key := split(path)
	local, there := b.own(table)
	if !there && strings.HasSuffix(table, "]") {
		return Done{}, b.inSetUp(path)
	}
	var all []attempt
	for _, v := range b.usual(key, k) {
		all = append(all, func() (Done, error) { return b.writer().put(local+"."+source.Join(key), v, after(table)...).done(path) })
	}
	if len(all) == 0 {
		return Done{}, b.wrong(path, "has to be typed", "")
	}
	return b.first(all...)
}

// usual are values that a key begins with.
func (b Bench) usual(key string, k source.Key) []string {
	switch {
	case key == "hold" || strings.HasPrefix(key, "dwell-"):
		n := b.Shot.Loop.Screen
		return []string{move.FramesText(max(1, n/12)), move.FramesText(max(1, n/48)), move.FramesText(1)}
	case len(k.Choices) > 0:
		return k.Choices
	case k.Example != "":
		return []string{k.Example}
	}
	return nil
}

// inSetUp is what is wrong with a change of what does not stand in the shot.
func (b Bench) inSetUp(path string) error {
	file := "a file under the shot"
	if b.Shot.Laid.Home != nil {
		if f, _ := b.Shot.Laid.Home(path); f != "" {
			file = f
		}
	}
	return b.wrong(path, "stands in "+file+", which is for all shots over it", "change it there, or give it another value here")
}
