package picture

import (
	"math"
	"strconv"

	"seamrail/motion/scene"

	"seamrail/motion/camera/light"
)

// dim adds what would take so many stops off.
func (e *eye) dim(v *Verdict, stops float64) {
	times := math.Exp2(-stops)
	iso, n := e.scene.Camera.ISO.Value, e.scene.Lens.Aperture.Value
	if lower := light.AtLeastISO(iso * times); lower < iso {
		v.try(ofLight, func(s *scene.Scene) { s.Camera.ISO = scene.Is(lower) }, "ISO %s", round(lower, 4)).as("camera.iso", round(lower, 4))
	}
	e.tryFilter(v, stops)
	e.tryLamps(v, times)
	if smaller := light.WiderAperture(n / math.Sqrt(times)); smaller > n {
		e.tryAperture(v, smaller)
	}
	e.tryShutter(v, e.shutter.Value*times)
}

// tryFilter adds a neutral filter for so many stops. Those are whole; what is left
// over goes to the sensitivity, which is raised where it cannot be lowered.
func (e *eye) tryFilter(v *Verdict, stops float64) {
	n, iso, change := math.Round(stops), e.scene.Camera.ISO.Value, ""
	if math.Abs(stops-n) > e.bounds.Stops {
		n = math.Floor(stops)
		if light.AtLeastISO(iso*math.Exp2(n-stops)) >= iso {
			n = math.Ceil(stops)
		}
		iso = light.AtLeastISO(iso * math.Exp2(n-stops))
		change = " with ISO " + round(iso, 4)
	}
	if density := filterFor(n); density > 0 {
		all := e.scene.Lens.Density.Or(0) + density
		m := v.try(ofLight, func(s *scene.Scene) { s.Lens.Density, s.Camera.ISO = scene.Is(all), scene.Is(iso) }, "%s", filterText(all)+change)
		if m.as("camera.neutral-density", typed(all, "")); change != "" {
			m.as("camera.iso", round(iso, 4))
		}
	}
}

// filterFor is the density of the marked neutral filter that takes off so many
// stops, 0 where none does. They are marked 0.3 a stop, which is 0.997 of one, and
// are to be had in whole stops (common practice).
func filterFor(stops float64) float64 { return 0.3 * math.Round(stops) }

func filterText(density float64) string {
	n := density / math.Log10(2)
	return "a neutral filter of ND " + strconv.FormatFloat(density, 'f', 1, 64) + ", " + stopsOf(math.Round(n*10)/10)
}

// tryAperture adds an aperture.
func (e *eye) tryAperture(v *Verdict, n float64) {
	v.try(ofIris, func(s *scene.Scene) { s.Lens.Aperture = scene.Is(n) }, "%s", stopText(n)).as("camera.aperture", "f/"+round(n, 3))
}

// stopText prints an f-number. Not every lens has those at the ends.
func stopText(n float64) string {
	text := "f/" + round(n, 3)
	switch {
	case n < 2.8:
		text += " (where the lens opens so far)"
	case n > 22:
		text += " (where the lens closes so far)"
	}
	return text
}

const (
	// maxISO is the highest sensitivity that is told as a cure: beyond it there is
	// more noise than picture (common practice).
	maxISO = 25600
	// maxBrighter is how many times as bright lamps may have to be: beyond it they
	// are other lamps.
	maxBrighter = 16
)

// tryLamps adds lamps some times as bright.
func (e *eye) tryLamps(v *Verdict, times float64) {
	if times > maxBrighter {
		return
	}
	words := "lamps " + short(times) + " times as bright"
	if times < 1 {
		words = "lamps dimmed to " + short(100*times) + " %"
	}
	e.dialled(v.try(ofLight, func(s *scene.Scene) {
		s.Metered.Value *= times
		for i := range s.Lamps {
			s.Lamps[i].Lumens.Value *= times
		}
	}, "%s", words), times)
}

// dialled adds what the file says of lamps some times as bright, where their dials go so
// far, none of them is dimmed over the loop, and no meter has the word.
func (e *eye) dialled(m *remedy, times float64) {
	for _, l := range e.scene.Lamps {
		if e.scene.Metered.Given || l.Fade != nil || l.Level.Or(1)*times > 1 {
			return
		}
	}
	for i, l := range e.scene.Lamps {
		m.as(of(lamps, i, "level"), round(100*l.Level.Or(1)*times, 3)+" %")
	}
}

// brighten adds what would supply the missing stops, each by itself.
func (e *eye) brighten(v *Verdict, stops float64) {
	times := math.Exp2(stops)
	iso, n := e.scene.Camera.ISO.Value, e.scene.Lens.Aperture.Value
	if e.scene.Lens.Density.Or(0) > 0 {
		v.try(ofLight, func(s *scene.Scene) { s.Lens.Density = scene.Number{} }, "no neutral filter").as("camera.neutral-density", "0")
	}
	if higher := light.AtLeastISO(iso * times); higher > iso && higher <= maxISO {
		v.try(ofLight, func(s *scene.Scene) { s.Camera.ISO = scene.Is(higher) }, "ISO %s", round(higher, 4)).as("camera.iso", round(higher, 4))
	}
	if !e.scene.Metered.Given {
		nearer, _ := strconv.ParseFloat(round(math.Exp2(-stops/2), 2), 64)
		m := v.try(ofLight, func(s *scene.Scene) {
			for i := range s.Lamps {
				s.Lamps[i].Distance.Value *= nearer
			}
		}, "lamps at %s of their distance", round(nearer, 2))
		for i, l := range e.scene.Lamps {
			m.as(of(lamps, i, "distance"), typed(math.Round(l.Distance.Value*nearer), "mm"))
		}
	}
	e.tryLamps(v, times)
	if wider := light.WiderAperture(n * math.Exp2(-stops/2)); wider < n {
		e.tryAperture(v, wider)
	}
	if long := e.shutter.Value * times; long <= e.frame {
		e.trySeconds(v, long, "a shutter of %s")
	} else {
		v.advise("a capture rate of %s a second with its shutter as far open", round(1/(e.frame*times), 3))
	}
}
