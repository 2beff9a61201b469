package picture

import (
	"math"

	"seamrail/motion/camera/light"
	"seamrail/motion/scene"

	"gonum.org/v1/gonum/spatial/r3"
)

// exposed is how many pieces an exposure is cut into. The path of a point
// through the picture is summed from their chords: in the short time of an
// exposure it is nearly straight, and a chord of an arc of a tenth of a radian
// is shorter by less than a thousandth. Where a point turns round within a
// piece about a hundredth of a path is lost, which is small just there.
const exposed = 8

// part is one thing that moves the picture by itself.
type part int

const (
	sideways part = iota
	pushIn
	turning
	panning
	tilting
	pulling
	together
	parts
)

// exposure is an exposure cut up, each part moving by itself: what the lens
// sees at each cut.
type exposure struct {
	spots []spot
	views [parts][exposed + 1]view
	moves [parts]bool
}

// expose cuts the time from sec on, span long, into pieces.
func (e *eye) expose(sec, span float64) *exposure {
	var q [exposed + 1]setting
	for j := range q {
		q[j] = e.at(sec + span*float64(j)/exposed)
	}
	mid := q[exposed/2]
	x := &exposure{spots: e.spotsIn(mid)}
	forward := e.pose(mid).Forward
	for p := range parts {
		var alone [exposed + 1]setting
		for j := range q {
			alone[j] = only(p, mid, q[j], forward)
			x.moves[p] = x.moves[p] || alone[j] != mid
		}
		for j := range q {
			if x.moves[p] {
				x.views[p][j] = e.view(alone[j])
			}
		}
	}
	return x
}

// only is mid with one part as it is in q.
func only(p part, mid, q setting, forward r3.Vec) setting {
	if p == together {
		return q
	}
	way := r3.Sub(q.shift, mid.shift)
	along := r3.Scale(r3.Dot(way, forward), forward)
	switch p {
	case sideways:
		mid.shift = r3.Add(mid.shift, r3.Sub(way, along))
	case pushIn:
		mid.shift = r3.Add(mid.shift, along)
	case turning:
		mid.table = q.table
	case panning:
		mid.pan = q.pan
	case tilting:
		mid.tilt = q.tilt
	case pulling:
		mid.focus = q.focus
	}
	return mid
}

// path is how far a spot travels, in px, when a part moves.
func (x *exposure) path(p part, s spot) float64 {
	if !x.moves[p] {
		return 0
	}
	way := 0.0
	last, _ := x.views[p][0].see(s)
	for j := 1; j <= exposed; j++ {
		next, ok := x.views[p][j].see(s)
		if !ok {
			return math.NaN()
		}
		way += last.to(next)
		last = next
	}
	return way
}

// most is the greatest path of a part over those spots that want holds of.
func (x *exposure) most(p part, want func(spot) bool) (float64, string) {
	most, name := 0.0, ""
	for _, s := range x.spots {
		if !want(s) {
			continue
		}
		if way := x.path(p, s); way > most*(1+tie) || name == "" {
			most, name = way, s.name
		}
	}
	return most, name
}

// tie is the share by which a path must be greater to be called so: of equal
// ones the first, on the product, is named.
const tie = 1e-6

func anywhere(spot) bool { return true }

// smear measures one exposure.
func (x *exposure) smear() Smear {
	var s Smear
	s.Sideways, _ = x.most(sideways, anywhere)
	s.PushCentre, _ = x.most(pushIn, func(s spot) bool { return s.name == "near face" || s.name == "axis" })
	s.PushEdge, _ = x.most(pushIn, anywhere)
	s.Table, _ = x.most(turning, anywhere)
	s.Pan, _ = x.most(panning, anywhere)
	s.Tilt, _ = x.most(tilting, anywhere)
	s.Focus, _ = x.most(pulling, anywhere)
	s.Together, s.Point = x.most(together, anywhere)
	return s
}

// smearVerdict tells the worst smear of the loop and what would lessen it.
func (e *eye) smearVerdict(rows []Row) Verdict {
	const check, would = "smear", "how far the picture runs during an exposure"
	if !e.scaled() || !e.shutter.Given {
		missing := append([]string{}, e.missing...)
		if !e.shutter.Given {
			missing = append(missing, "shutter")
		}
		return unknown(check, would, missing...)
	}
	if e.rests() {
		return Verdict{Check: check, Level: Good, Text: "the rig rests while a frame is exposed: no smear but of what moves by itself"}
	}
	worst := greatest(rows, func(r Row) float64 { return r.Smear.Together })
	if worst < 0 {
		return unseen(check)
	}
	r := rows[worst]
	v := Verdict{Check: check, When: e.moment(r.Seconds)}
	e.smearFigures(&v, rows, r.Smear)
	v.Level, v.Text = e.smearWords(&v, r)
	v.partly(e.leftOut(e.seen()...))
	return v
}

func (e *eye) smearWords(v *Verdict, r Row) (Level, string) {
	px := r.Smear.Together
	text := "smear " + short(px) + " px at frame " + frameText(r.Frame) + " (" + r.Smear.Point + "): "
	level, words := Good, "sharp"
	switch {
	case px > e.bounds.SoftSmear:
		level, words = Poor, "runs"
	case px > e.bounds.SharpSmear:
		level, words = Good, "soft but natural"
	}
	if v.gauge = px; level == Poor {
		times := px / e.bounds.SoftSmear
		e.tryShutter(v, e.shutter.Value/times)
		e.tryLonger(v, times)
		e.tryFarther(v, times)
	}
	return level, text + words
}

// tryShutter adds a marked shutter no longer than sec.
func (e *eye) tryShutter(v *Verdict, sec float64) {
	e.trySeconds(v, light.NoLonger(sec), "a shutter of %s")
}

func (e *eye) trySeconds(v *Verdict, sec float64, words string) {
	v.try(ofShutter, func(s *scene.Scene) { s.Camera.Shutter, s.Camera.ShutterAngle = scene.Is(sec), scene.Number{} }, words, light.ShutterText(sec)).
		as("camera.shutter", light.ShutterText(sec))
}

// partShare is the share of the greatest part of a smear below which another is
// left out: it is rounding.
const partShare = 1e-9

// smearFigures adds the worst of each part, each at its own frame.
func (e *eye) smearFigures(v *Verdict, rows []Row, at Smear) {
	v.figure("together", at.Together, "px")
	var parts []Figure
	most := 0.0
	for _, p := range []struct {
		name string
		of   func(Smear) float64
	}{
		{"sideways", func(s Smear) float64 { return s.Sideways }},
		{"push-in, near face", func(s Smear) float64 { return s.PushCentre }},
		{"push-in, edge", func(s Smear) float64 { return s.PushEdge }},
		{"turntable", func(s Smear) float64 { return s.Table }},
		{"pan", func(s Smear) float64 { return s.Pan }},
		{"tilt", func(s Smear) float64 { return s.Tilt }},
		{"focus", func(s Smear) float64 { return s.Focus }},
	} {
		if k := greatest(rows, func(r Row) float64 { return p.of(r.Smear) }); k >= 0 {
			parts, most = append(parts, Figure{p.name, p.of(rows[k].Smear), "px"}), math.Max(most, p.of(rows[k].Smear))
		}
	}
	for _, p := range parts {
		if p.Value > partShare*most {
			v.figure(p.Name, p.Value, p.Unit)
		}
	}
	v.figure("shutter", e.shutter.Value, "s")
}
