package picture

import (
	"fmt"
	"math"

	"seamrail/motion/camera/light"
	"seamrail/motion/scene"
)

// hueless is how many stops under the brightest frame nobody tells a hue any more: about
// where shadows have no texture (common practice).
const hueless = 6

// leastDrift, in mired, is what is not worth a word.
const leastDrift = 1

// drift is how the white of what faces the camera changes over the loop, in frames that
// are bright enough to show a hue.
type drift struct {
	warm, cold     float64 // kelvin
	inWarm, inCold int64   // captured frames
}

// mired is how far the two are apart.
func (d drift) mired() float64 { return light.Mired(d.warm) - light.Mired(d.cold) }

// colourDrift looks at the mixture of the lamps; false where it cannot be told, or where
// nothing changes.
func (e *eye) colourDrift() (drift, bool) {
	if !e.fades {
		return drift{}, false
	}
	out := drift{warm: math.Inf(1)}
	dim := e.lightRange().most * math.Exp2(-hueless)
	frames, secs := e.looks(maxLooks)
	for n, sec := range secs {
		lamps := e.lampsAt(sec)
		if lux, _ := sharesOn(lamps, toCamera()); lux <= dim {
			continue
		}
		kelvin, known := mixed(lamps, toCamera())
		if !known {
			return drift{}, false
		}
		if kelvin < out.warm {
			out.warm, out.inWarm = kelvin, frames[n]
		}
		if kelvin > out.cold {
			out.cold, out.inCold = kelvin, frames[n]
		}
	}
	return out, out.cold > 0
}

// drifting adds to a verdict on colour how the white changes over the loop.
func (e *eye) drifting(v Verdict, d drift) Verdict {
	if d.cold == 0 {
		return v
	}
	by := d.mired()
	v.figure("over the loop", by, "mired")
	if by < leastDrift {
		return v
	}
	if by <= e.bounds.Mired {
		v.Text += fmt.Sprintf("; over the loop the white of what faces the camera drifts by %s mired", short(by))
		return v
	}
	if v.Level == Good {
		v.Level = Fair
	}
	v.gauge = math.Max(v.gauge, by)
	v.When = e.moment(e.motion.FrameSeconds(d.inWarm).Float())
	v.Text += fmt.Sprintf("; over the loop the white of what faces the camera drifts by %s mired, from %s K in frame %d to %s K in frame %d",
		short(by), round(d.cold, 3), d.inCold, round(d.warm, 3), d.inWarm)
	return v
}

// fullest are the lamps, each as it burns where it is brightest.
func (e *eye) fullest() []scene.Lamp {
	out := make([]scene.Lamp, len(e.scene.Lamps))
	for i, l := range e.scene.Lamps {
		if c := e.courses[i]; c != nil {
			l.Level = scene.Is(c.Most())
		}
		out[i] = glowing(l)
	}
	return out
}
