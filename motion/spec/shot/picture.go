package shot

import (
	"slices"
	"strings"

	"seamrail/motion/scene"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/base/unit"
	"seamrail/motion/camera/picture"
	"seamrail/motion/move"
)

// RawPicture is the [picture] table: bounds that part a good picture from a
// poor one, where the shot wants others than are filled in.
type RawPicture struct {
	InFrame      source.Text `toml:"in-frame" jsonschema:"enum=throughout,enum=free" jsonschema_description:"Whether the product is to stay in the picture, or to fill it, all through the loop (throughout), or may come and go, as where the camera slides past it (free); left out, throughout."`
	SharpSmear   source.Text `toml:"sharp-smear" jsonschema:"example=1" jsonschema_description:"Pixels of smear that count as sharp."`
	SoftSmear    source.Text `toml:"soft-smear" jsonschema:"example=8" jsonschema_description:"Pixels of smear that still look natural."`
	CalmSpeed    source.Text `toml:"calm-speed" jsonschema:"example=0.14" jsonschema_description:"Picture widths a second on screen that are calm."`
	BriskSpeed   source.Text `toml:"brisk-speed" jsonschema:"example=0.33" jsonschema_description:"Picture widths a second on screen that are still watchable."`
	LeastAngle   source.Text `toml:"least-angle" jsonschema:"example=90 deg,example=90" jsonschema_description:"Shutter angle below which motion stutters."`
	MostAngle    source.Text `toml:"most-angle" jsonschema:"example=270 deg,example=270" jsonschema_description:"Shutter angle above which motion runs."`
	StepPixels   source.Text `toml:"step-pixels" jsonschema:"example=0.5" jsonschema_description:"Pixels that one motor step may move the picture."`
	StepsExposed source.Text `toml:"steps-exposed" jsonschema:"example=1" jsonschema_description:"Steps in an exposure that melt together."`
	Backlash     source.Text `toml:"backlash" jsonschema:"example=1" jsonschema_description:"Pixels that the picture may lag where an axis turns round."`
	HandLate     source.Text `toml:"hand-late" jsonschema:"example=0.1 s,example=0.1" jsonschema_description:"Real seconds that a hand on the focus ring may be late or early."`
	HandBits     source.Text `toml:"hand-bits" jsonschema:"example=10" jsonschema_description:"Bits a second by which a hand stops at a mark of the focus ring (Fitts' law)."`
	RingSpeed    source.Text `toml:"ring-speed" jsonschema:"example=180 deg/s,example=180" jsonschema_description:"Degrees a second that a hand turns the focus ring evenly."`
	SharpSpot    source.Text `toml:"sharp-spot" jsonschema:"example=2" jsonschema_description:"Pixels across a spot that counts as sharp."`
	Airy         source.Text `toml:"airy" jsonschema:"example=3" jsonschema_description:"Pixels across what diffraction makes of a point."`
	Meter        source.Text `toml:"meter" jsonschema:"example=250" jsonschema_description:"The constant of the light meter, lux seconds."`
	Stops        source.Text `toml:"stops" jsonschema:"example=0.33" jsonschema_description:"Stops of light that may be missing."`
	Mired        source.Text `toml:"mired" jsonschema:"example=10" jsonschema_description:"Mired that lamps may lie apart."`
	Flicker      source.Text `toml:"flicker" jsonschema:"example=1 %,example=0.01" jsonschema_description:"Share by which frames may brighten and darken."`
	Black        source.Text `toml:"black" jsonschema:"example=10" jsonschema_description:"Stops under full exposure at which lamps that are down hide the seam."`
	Clearance    source.Text `toml:"clearance" jsonschema:"example=15 mm,example=15" jsonschema_description:"Room to keep between lens and product."`
	HoleMargin   source.Text `toml:"hole-margin" jsonschema:"example=3 mm,example=3" jsonschema_description:"Room to keep all round between lens and hole."`
	SeamJump     source.Text `toml:"seam-jump" jsonschema:"example=0.5" jsonschema_description:"Pixels that the picture may jump at the seam."`
	SeamKick     source.Text `toml:"seam-kick" jsonschema:"example=0.5" jsonschema_description:"Pixels a frame that its speed may jump by at the seam."`
}

func (raw RawPicture) texts() map[string]source.Text {
	return map[string]source.Text{
		"sharp-smear": raw.SharpSmear, "soft-smear": raw.SoftSmear, "calm-speed": raw.CalmSpeed, "brisk-speed": raw.BriskSpeed,
		"least-angle": raw.LeastAngle, "most-angle": raw.MostAngle, "step-pixels": raw.StepPixels, "steps-exposed": raw.StepsExposed,
		"backlash": raw.Backlash, "hand-late": raw.HandLate, "hand-bits": raw.HandBits, "ring-speed": raw.RingSpeed, "sharp-spot": raw.SharpSpot, "airy": raw.Airy, "meter": raw.Meter, "stops": raw.Stops,
		"mired": raw.Mired, "flicker": raw.Flicker, "black": raw.Black, "clearance": raw.Clearance, "hole-margin": raw.HoleMargin,
		"seam-jump": raw.SeamJump, "seam-kick": raw.SeamKick,
	}
}

// sceneReader understands what the picture is made with.
type sceneReader struct {
	*source.Report
	path   string // "scene.product."
	scene  scene.Scene
	places map[string]source.Place // of each key that was read
	time   timing
	paced  bool // the rig sets the pace of the loop
}

// look reads [camera], [scene] and [picture], and returns nil where the shot
// has none of them.
func (raw Raw) look(report *source.Report, t timing, s *Shot) {
	if raw.Camera == nil && raw.Scene == nil && raw.Picture == nil {
		return
	}
	l := &sceneReader{Report: report, places: map[string]source.Place{}, time: t, paced: s.Quickest}
	roles := map[string]RawRole{}
	if raw.Camera != nil {
		l.camera(*raw.Camera)
	}
	if raw.Scene != nil {
		roles = raw.Scene.Axis
		l.stand(*raw.Scene)
	}
	if raw.Picture != nil {
		l.bounds(*raw.Picture)
	}
	l.axes(roles, s.Axes)
	l.carrier(raw, s.Axes)
	l.faces(s)
	faults := l.scene.Faults()
	if t.Known && !slices.ContainsFunc(faults, func(f fault.Fault) bool { return f.Quantity == "camera.shutter" }) {
		faults = append(faults, picture.TooSlow(l.scene.Camera, t.Clock.FrameTime(1).Float())...)
	}
	for _, f := range faults {
		report.Add(l.place(f.Quantity), shown(f.Quantity), f.Value, f.Bound, f.Fit)
	}
	s.Scene, s.places = &l.scene, l.places
}

// bounds reads [picture]. A bound is a number in its own unit, which may be left
// out.
func (l *sceneReader) bounds(raw RawPicture) {
	l.path = "picture."
	if raw.InFrame.Set {
		word, _ := l.Choice(raw.InFrame, l.path+"in-frame", "throughout", "free")
		l.scene.MayLeave = word == "free"
	}
	texts := raw.texts()
	for _, b := range scene.BoundList() {
		t := texts[b.Key]
		if !t.Set {
			continue
		}
		bare := t
		bare.Text = strings.TrimSpace(strings.TrimSuffix(t.Text, b.Unit))
		n := l.number(bare, b.Key, unit.Number, unit.Length, unit.Angle)
		if n.Given && n.Value <= 0 {
			l.Wrong(t, l.path+b.Key, "must be above 0", "leave it out for what is usual")
			continue
		}
		*b.At(&l.scene.Bounds) = n.Value
	}
}

// faces takes the symmetry of the product from the axis that turns it.
func (l *sceneReader) faces(s *Shot) {
	m, ok := s.Axis(l.scene.Stand.TableAxis)
	turner, turns := m.Does.(move.Turner)
	if !ok || !turns {
		return
	}
	p := &l.scene.Product
	switch faces := turner.Faces(); {
	case faces == 0:
	case p.Alike == 0:
		p.Alike = int(faces)
	case p.Alike != int(faces):
		l.Add(l.place("scene.product.symmetry"), "scene.product.symmetry", "", "must be what axis "+m.Name+" says", exact.Int(faces).String())
	}
}

// quantity reads what may be left out.
func (l *sceneReader) quantity(t source.Text, key string, want ...unit.Dimension) (unit.Quantity, bool) {
	if !t.Set {
		return unit.Quantity{}, false
	}
	l.mark(key, t)
	return l.Quantity(t, l.path+key, want...)
}

// number reads a quantity as a number that may not be known.
func (l *sceneReader) number(t source.Text, key string, want ...unit.Dimension) scene.Number {
	q, ok := l.quantity(t, key, want...)
	return scene.Number{Value: q.Float(), Given: ok}
}

// whole reads a count; how great it may be is for the picture to say.
func (l *sceneReader) whole(t source.Text, key string) (int, bool) {
	const most = 1_000_000
	if !t.Set {
		return 0, false
	}
	l.mark(key, t)
	n, ok := l.Whole(t, l.path+key, 0, most)
	return int(n), ok
}

func (l *sceneReader) mark(key string, t source.Text) { l.places[l.path+key] = t.Place() }

func (l *sceneReader) place(key string) source.Place { return l.places[key] }

// shown is the key as the file has it.
func shown(key string) string {
	if key == "camera.shutter-angle" {
		return "camera.shutter"
	}
	return key
}

// placeOf is where the value of a fault stands: at its key, or at the axis that
// moves so.
func (s Shot) placeOf(f fault.Fault) source.Place {
	if at, ok := s.places[f.Quantity]; ok {
		return at
	}
	m, _ := s.Axis(f.Axis)
	return source.Place{Line: m.Line, Column: m.Column, Origin: m.Origin}
}

// Located returns faults of the picture with the lines of the file they speak
// of.
func (s Shot) Located(list fault.List) fault.List {
	report := &source.Report{File: s.File}
	for _, f := range list {
		report.Add(s.placeOf(f), shown(f.Quantity), f.Value, strings.TrimSpace(f.Bound+" "+f.Where), f.Fit)
		if last := len(report.Faults) - 1; last >= 0 && f.Axis != "" {
			report.Faults[last].Axis = f.Axis
		}
	}
	return report.Faults.Sorted()
}
