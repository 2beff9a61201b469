package picture

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"seamrail/motion/base/fault"
	"seamrail/motion/camera/light"
	"seamrail/motion/camera/pose"
	"seamrail/motion/fade"
	"seamrail/motion/scene"
)

// setFades finds how the levels of the lamps go over the loop.
func (e *eye) setFades() fault.List {
	var out fault.List
	e.courses = make([]*fade.Course, len(e.scene.Lamps))
	e.loop, e.round = e.shownUntil().Float(), e.motion.Period().Float()
	for i, l := range e.scene.Lamps {
		if l.Fade == nil {
			continue
		}
		c, err := l.Fade.Over(e.shownUntil())
		if err != nil {
			out = append(out, fault.Fault{Quantity: fmt.Sprintf("scene.lamps[%d].level", i+1), Bound: err.Error()})
			continue
		}
		e.courses[i], e.fades = c, true
	}
	return out
}

// side is on which side of an instant something is looked at.
type side bool

const (
	after  side = false
	before side = true
)

// level is what lamp i is set to at sec, and how fast that changes, a second. While the
// rig comes back unseen it stays as it is at the seam.
func (e *eye) level(i int, sec float64, s side) (level, change float64) {
	c := e.courses[i]
	if c == nil {
		return e.scene.Lamps[i].Level.Or(1), 0
	}
	if s == before {
		return c.Before(sec)
	}
	if sec -= e.round * math.Floor(sec/e.round); sec >= e.loop {
		sec = 0
	}
	return c.At(sec)
}

// lampsAt are the lamps as they burn at sec.
func (e *eye) lampsAt(sec float64) []scene.Lamp { return e.lamps(sec, after) }

func (e *eye) lamps(sec float64, s side) []scene.Lamp {
	if !e.fades && !e.glows() {
		return e.scene.Lamps
	}
	out := make([]scene.Lamp, len(e.scene.Lamps))
	for i, l := range e.scene.Lamps {
		if e.courses[i] != nil {
			level, _ := e.level(i, sec, s)
			l.Level = scene.Is(level)
		}
		out[i] = glowing(l)
	}
	return out
}

// glowing is a lamp in the colour of its level.
func glowing(l scene.Lamp) scene.Lamp {
	if l.Filament && l.Kelvin.Given {
		l.Kelvin.Value = light.Dimmed(l.Kelvin.Value, l.Level.Or(1))
	}
	return l
}

// glows tells whether a lamp has a filament.
func (e *eye) glows() bool {
	for _, l := range e.scene.Lamps {
		if l.Filament {
			return true
		}
	}
	return false
}

// toCamera is the way that a face looks which is turned to the camera.
func toCamera() r3.Vec { return pose.Direction(180, 0) }

// faces are the ways that what is lit may look: to the camera, and to each lamp.
func (e *eye) faces() []r3.Vec {
	out := []r3.Vec{toCamera()}
	for _, l := range e.scene.Lamps {
		out = append(out, l.Toward())
	}
	return out
}

// luxOn adds up what lamps give on a face, and names what of them is missing.
func luxOn(lamps []scene.Lamp, face r3.Vec) (lux float64, missing []string) {
	for _, l := range lamps {
		one, m := l.LuxOn(face)
		lux += one
		missing = append(missing, m...)
	}
	return lux, missing
}

// sharesOn is luxOn, but that one lamp of which not enough is known stands for its level:
// shares of its light are known all the same.
func sharesOn(lamps []scene.Lamp, face r3.Vec) (lux float64, known bool) {
	lux, missing := luxOn(lamps, face)
	if len(lamps) == 1 && len(missing) > 0 {
		return lamps[0].Level.Or(1), true
	}
	return lux, len(missing) == 0
}

// lit is the light on a face turned to the camera over the frames of the loop, each in
// the middle of its exposure.
type lit struct {
	most, least        float64 // lx, or shares of the light where that is not known
	brightest, darkest int64   // captured frames
	missing            []string
	spanned            bool // what is least is known, as a share of what is most
}

// maxLooks is how many frames are looked at for what changes as smoothly as a fade.
const maxLooks = 600

// looks are the instants, in the middle of exposures, at which the lamps are looked at.
func (e *eye) looks(most int64) (frames []int64, secs []float64) {
	n := int64(1)
	if e.fades {
		n = e.motion.Captured()
	}
	every := (n + most - 1) / most
	for k := int64(0); k < n; k += every {
		frames = append(frames, k)
		secs = append(secs, e.motion.FrameSeconds(k).Float()+e.moved()/2)
	}
	return frames, secs
}

// lightRange looks at the light of every frame, or evenly at as many as rows are.
func (e *eye) lightRange() lit {
	if e.all == nil {
		found := e.findLight()
		e.all = &found
	}
	return *e.all
}

func (e *eye) findLight() lit {
	out := lit{least: math.Inf(1), most: math.Inf(-1), spanned: true}
	frames, secs := e.looks(maxRows)
	for i, sec := range secs {
		lamps := e.lampsAt(sec)
		lux, known := sharesOn(lamps, toCamera())
		if lux > out.most {
			out.most, out.brightest = lux, frames[i]
		}
		if lux < out.least {
			out.least, out.darkest = lux, frames[i]
		}
		out.spanned = out.spanned && known
	}
	_, out.missing = luxOn(e.scene.Lamps, toCamera())
	return out
}

// swing is the light of the brightest frame over that of the darkest, in stops: +Inf
// where the one has none.
func (s lit) swing() float64 { return math.Log2(s.most / s.least) }

// mixed is the colour temperature of what lamps give on a face, and false where it is
// not known or there is no light.
func mixed(lamps []scene.Lamp, face r3.Vec) (kelvin float64, known bool) {
	var parts []light.Part
	for _, l := range lamps {
		lux, sure := sharesOn([]scene.Lamp{l}, face)
		if _, missing := l.LuxOn(face); !sure || lux > 0 && !l.Kelvin.Given || len(missing) > 0 && len(lamps) > 1 {
			return 0, false
		}
		if lux > 0 {
			parts = append(parts, light.Part{Lux: lux, Kelvin: l.Kelvin.Value})
		}
	}
	if len(parts) == 0 {
		return 0, false
	}
	return light.Mixed(parts), true
}

// lightRows tells in rows what light there is, where that changes.
func (e *eye) lightRows(rows []Row) {
	if !e.fades {
		return
	}
	_, all := e.lightThere()
	lit := e.lightRange()
	for i := range rows {
		r := &rows[i]
		r.Light, r.Under, r.Kelvin = math.NaN(), math.NaN(), math.NaN()
		lamps := e.lampsAt(r.Seconds + e.moved()/2)
		lux, known := sharesOn(lamps, toCamera())
		if known && lit.most > 0 {
			r.Under = math.Log2(lit.most / lux)
		}
		if _, missing := luxOn(lamps, toCamera()); known && (len(missing) == 0 || e.scene.Metered.Given) && lit.most > 0 {
			r.Light = lux * all.most / lit.most
		}
		if kelvin, known := mixed(lamps, toCamera()); known {
			r.Kelvin = kelvin
		}
	}
}
