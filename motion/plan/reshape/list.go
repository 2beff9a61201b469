package reshape

import (
	"fmt"

	"seamrail/motion/base/source"
	"seamrail/motion/move"
	"seamrail/motion/spec/shot"
)

// Item is something that can be added, or taken out.
type Item struct {
	Path  string
	What  string // what kind of thing it is
	Label string
	Help  string
}

// catalogue gathers items.
type catalogue struct {
	Bench
	raw shot.Raw
	out []Item
}

func (c *catalogue) item(when bool, what, path, format string, args ...any) {
	if !when {
		return
	}
	k, _ := keyOf(path)
	c.out = append(c.out, Item{path, what, fmt.Sprintf(format, args...), k.Help})
}

// Adds are what can be added to the shot, in the order of the schema.
func (b Bench) Adds() []Item {
	c := &catalogue{Bench: b, raw: b.Shot.Raw()}
	raw, driven := c.raw, b.Rig.Controller.Kind.Driven()
	runs := raw.ByFrame == nil
	pulled := raw.Camera != nil && raw.Camera.Pull != nil
	c.item(raw.Take == shot.RawTake{}, "take", "take", "How the take is filmed")
	own := raw.Clock.Capture.File+raw.Clock.Retime.File+raw.Clock.Pace.File == "" // or they cannot be set aside
	c.item(runs && own && driven && len(raw.Spin) == 0 && len(raw.Cue) == 0 && raw.SyncMark == nil && !pulled, "frame-by-frame", "frame-by-frame", "Frame by frame, the rig at rest")
	c.item(raw.Music == nil, "music", "music", "Music")
	for _, a := range b.Rig.Axes {
		_, there := raw.Axis[a.Name]
		c.item(!there, "axis", source.Join("axis", a.Name), "A move for %s", a.Name)
	}
	for _, m := range b.Shot.Axes {
		c.ofAxis(m)
	}
	for _, s := range b.Rig.Stands {
		_, there := raw.Spin[s.Name]
		c.item(!there && runs, "stand", source.Join("spin", s.Name), "The display stand %s", s.Name)
	}
	c.item(raw.Camera == nil, "camera", "camera", "The camera and its lens")
	if raw.Camera != nil {
		c.item(!pulled && runs, "pull", "camera.pull", "A hand that pulls the focus")
		c.item(pulled && raw.Camera.Pull.Keys != nil, "key", "camera.pull.keys", "A focus at another time")
		c.item(raw.Camera.Scale == nil && raw.Camera.FocalLength.Set, "scale", "camera.scale", "The scale of the focus ring")
	}
	c.ofScene()
	c.item(raw.SyncMark == nil && runs && driven, "sync-mark", "sync-mark", "A mark that tells the camera when")
	c.item(runs, "cue", "cue", "A cue for a hand")
	c.item(raw.Picture == nil, "picture", "picture", "What counts as a good picture")
	return c.out
}

func (c *catalogue) ofAxis(m shot.AxisMove) {
	path := source.Join("axis", m.Name)
	_, keyed := m.Does.(move.Keyed)
	c.item(keyed, "key", path+".keys", "A key of %s", m.Name)
	raw := c.raw.Axis[m.Name]
	_, shuttles := m.Does.(move.Shuttle)
	shuttles = shuttles && c.Rig.Controller.Kind.Driven() // others rest as their buttons have it
	c.item(shuttles && !raw.DwellFar.Set, "rest", path+".dwell-far", "A rest of %s at the far end", m.Name)
	c.item(shuttles && !raw.DwellNear.Set, "rest", path+".dwell-near", "A rest of %s at the near end", m.Name)
}

func (c *catalogue) ofScene() {
	s := c.raw.Scene
	if s == nil {
		s = &shot.RawScene{}
		c.item(true, "scene", "scene", "What stands before the camera")
	}
	c.item(s.Product == nil, "product", "scene.product", "The product")
	for _, m := range c.Shot.Axes {
		_, there := s.Axis[m.Name]
		c.item(!there, "role", "scene."+source.Join("axis", m.Name), "What %s does to the picture", m.Name)
	}
	c.item(true, "lamp", "scene.lamps", "A lamp")
	for i, l := range s.Lamps {
		path, name := fmt.Sprintf("scene.lamps[%d]", i+1), nameOr(l.Name.Text, "lamp", i)
		c.item(l.Fade == nil, "fade", path+".fade", "A fade of the lamp %s", name)
		c.item(true, "key", path+".keys", "A level of the lamp %s at a time", name)
	}
	c.item(true, "hole", "scene.holes", "A hole to look through")
	c.item(s.Dark == nil, "board", "scene.dark", "A dark board that hides the seam")
}

func nameOr(name, kind string, i int) string {
	if name != "" {
		return name
	}
	return fmt.Sprintf("%s %d", kind, i+1)
}

// Removes are what can be taken out of the shot: tables and items of lists.
func (b Bench) Removes() []Item {
	c := &catalogue{Bench: b, raw: b.Shot.Raw()}
	raw := c.raw
	c.item(c.has("take"), "take", "take", "how the take is filmed")
	c.item(c.has("frame-by-frame"), "frame-by-frame", "frame-by-frame", "frame by frame: the camera runs again")
	c.item(c.has("music"), "music", "music", "the music")
	for _, m := range b.Shot.Axes {
		path := source.Join("axis", m.Name)
		c.item(len(raw.Axis) > 1, "axis", path, "the axis %s", m.Name)
		for i := range raw.Axis[m.Name].Keys {
			c.item(len(raw.Axis[m.Name].Keys) > 1, "key", fmt.Sprintf("%s.keys[%d]", path, i+1), "key %d of %s", i+1, m.Name)
		}
	}
	for _, name := range names(raw.Spin, func(s shot.RawSpin) source.Place { return s.Place }) {
		c.item(true, "stand", source.Join("spin", name), "the display stand %s", name)
	}
	c.item(c.has("camera"), "camera", "camera", "the camera and its lens")
	if raw.Camera != nil && raw.Camera.Pull != nil {
		c.item(true, "pull", "camera.pull", "the hand that pulls the focus")
		for i := range raw.Camera.Pull.Keys {
			c.item(len(raw.Camera.Pull.Keys) > 2, "key", fmt.Sprintf("camera.pull.keys[%d]", i+1), "focus %d", i+1)
		}
	}
	c.item(c.has("camera.scale"), "scale", "camera.scale", "the scale of the focus ring")
	c.itemsOfScene()
	c.item(c.has("sync-mark"), "sync-mark", "sync-mark", "the mark that tells the camera when")
	for i, q := range raw.Cue {
		c.item(true, "cue", fmt.Sprintf("cue[%d]", i+1), "the cue %s", nameOr(q.Name.Text, "cue", i))
	}
	c.item(c.has("picture"), "picture", "picture", "what counts as a good picture")
	return c.out
}

// has tells whether the text itself has something at a path.
func (c *catalogue) has(path string) bool {
	_, own := c.own(path)
	return own
}

func (c *catalogue) itemsOfScene() {
	s := c.raw.Scene
	if s == nil {
		return
	}
	c.item(c.has("scene"), "scene", "scene", "all that stands before the camera")
	c.item(s.Product != nil, "product", "scene.product", "the product")
	for _, name := range names(s.Axis, func(r shot.RawRole) source.Place { return r.Place }) {
		c.item(true, "role", "scene."+source.Join("axis", name), "what %s does to the picture", name)
	}
	for i, l := range s.Lamps {
		path, name := fmt.Sprintf("scene.lamps[%d]", i+1), nameOr(l.Name.Text, "lamp", i)
		c.item(true, "lamp", path, "the lamp %s", name)
		c.item(l.Fade != nil, "fade", path+".fade", "the fade of the lamp %s", name)
		for j := range l.Keys {
			c.item(true, "key", fmt.Sprintf("%s.keys[%d]", path, j+1), "level %d of the lamp %s", j+1, name)
		}
	}
	for i, h := range s.Holes {
		c.item(true, "hole", fmt.Sprintf("scene.holes[%d]", i+1), "the hole %s", nameOr(h.Name.Text, "hole", i))
	}
	c.item(s.Dark != nil, "board", "scene.dark", "the dark board")
}
