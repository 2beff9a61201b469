package sheet

import (
	"fmt"

	"seamrail/motion/cue"
	"seamrail/motion/scene"

	"seamrail/motion/base/clock"
	"seamrail/motion/base/unit"
	"seamrail/motion/camera/light"
	"seamrail/motion/plan"
)

// camera is what is set on the camera.
func camera(p *plan.Plan, s scene.Scene) Group {
	c := s.Camera
	return Group{"Camera", []Row{
		rateRow(p),
		{"shutter", shutter(p, c)},
		{"ISO", known(c.ISO, unit.Number)},
		{"white balance", white(s.Lamps)},
		{"sensor used", across(known(c.SensorWidth, unit.Length), known(c.SensorHeight, unit.Length))},
		{"pixels", across(known(c.PixelsWide, unit.Number), known(c.PixelsHigh, unit.Number))},
		{"automatic", "nothing: focus, exposure, white by hand"},
		{"card, format", ""},
	}}
}

// rateRow is how often a frame is taken.
func rateRow(p *plan.Plan) Row {
	if p.ByFrame != nil && p.ByFrame.Waits {
		return Row{"a frame", "when the hand takes it, one by one"}
	}
	if p.ByFrame != nil {
		return Row{"a frame every", p.Loop.Clock.FrameTime(1).Decimal(1) + " s, one by one"}
	}
	return Row{"frames/s", clock.RateText(p.Loop.Clock.Capture)}
}

// across is a width by a height, or a blank where one is not known.
func across(w, h string) string {
	if w == "" || h == "" {
		return ""
	}
	return w + " x " + h
}

// shutter is the time with the angle of a captured frame that it is: 360
// degrees are the whole of it (common practice).
func shutter(p *plan.Plan, c scene.Camera) string {
	if p.ByFrame != nil {
		return light.ShutterText(p.ByFrame.Exposure.Float())
	}
	rate := p.Loop.Clock.Capture.Float()
	sec := c.Open(1 / rate)
	if !sec.Given {
		return ""
	}
	return fmt.Sprintf("%s (%.0f deg)", light.ShutterText(sec.Value), sec.Value*rate*360)
}

// white is the colour of the light, where all lamps say the same.
func white(lamps []scene.Lamp) string {
	if len(lamps) == 0 {
		return ""
	}
	for _, l := range lamps {
		if l.Kelvin != lamps[0].Kelvin {
			return ""
		}
	}
	return known(lamps[0].Kelvin, unit.Temperature)
}

// lens is what is set on the lens, with the third of focal length,
// magnification and focus where two are known.
func lens(s scene.Scene) Group {
	l := s.Lens.Third()
	f, m, u := l.FocalLength, l.Magnification, l.Focus
	sharp, size := known(u, unit.Length), ratio(m)
	if l.Pull != nil {
		sharp, size = "pulled by the "+cue.Called(l.Pull.Hand), "see focus by hand"
	}
	rows := []Row{
		{"focal length", known(f, unit.Length)},
		{"aperture", prefixed("f/", known(l.Aperture, unit.Number))},
		{"sharp at, from lens", sharp},
		{"image : object", size},
		{"filter", ""},
	}
	return Group{"Lens", rows}
}

func prefixed(before, text string) string {
	if text == "" {
		return ""
	}
	return before + text
}

// ratio writes a magnification as lenses are marked.
func ratio(m scene.Number) string {
	switch {
	case !m.Given || !(m.Value > 0):
		return ""
	case m.Value > 1:
		return unit.Format(round2(m.Value), unit.Number) + " : 1"
	}
	return "1 : " + unit.Format(round2(1/m.Value), unit.Number)
}

// standing is where the lens stands when the axes are where it was measured.
func standing(s scene.Scene) Group {
	st := s.Stand
	g := Group{"Where the lens stands", []Row{
		{"to the table's axis", known(st.Distance, unit.Length)},
		{"over the table's top", high(s)},
	}}
	for _, side := range []struct {
		n           scene.Number
		plus, minus string
		dim         unit.Dimension
	}{
		{st.Aside, "right of the axis", "left of the axis", unit.Length},
		{st.Pan, "turned to the left", "turned to the right", unit.Angle},
		{st.Tilt, "looks up", "looks down", unit.Angle},
	} {
		switch v := side.n.Value; {
		case !side.n.Given || v == 0:
		case v > 0:
			g.Rows = append(g.Rows, Row{side.plus, unit.Format(v, side.dim)})
		default:
			g.Rows = append(g.Rows, Row{side.minus, unit.Format(-v, side.dim)})
		}
	}
	for _, sl := range st.Slides {
		g.Rows = append(g.Rows, Row{"with " + sl.Axis + " at", unit.Format(sl.Zero, unit.Length)},
			Row{sl.Axis + " carries it", heading(sl)})
	}
	return g
}

// high is how high the lens is: at the product's middle, where nothing is said.
func high(s scene.Scene) string {
	if p := s.Product; !s.Stand.Height.Given && p.Height.Given {
		return unit.Format(p.Base+p.Height.Value/2, unit.Length) + ", product's middle"
	}
	return known(s.Stand.Height, unit.Length)
}

// heading says which way a slide carries the camera as its numbers grow.
func heading(sl scene.Slide) string {
	text := ""
	switch sl.Heading {
	case 0:
		text = "towards the table"
	case 90:
		text = "to the left"
	case -90:
		text = "to the right"
	case 180, -180:
		text = "away from the table"
	default:
		text = unit.Format(sl.Heading, unit.Angle) + " left of ahead"
	}
	if sl.Rise != 0 {
		text += ", rising " + unit.Format(sl.Rise, unit.Angle)
	}
	return text
}

// product is what stands on the table.
func product(s scene.Scene) Group {
	p := s.Product
	var rows []Row
	switch p.Shape {
	case scene.Cylinder:
		rows = []Row{{"cylinder, radius", known(p.Radius, unit.Length)}}
	case scene.Prism:
		rows = []Row{{fmt.Sprintf("prism of %d, to a corner", p.Sides), known(p.Radius, unit.Length)}}
	case scene.Box:
		rows = []Row{{"box, wide x deep", across(known(p.Width, unit.Length), known(p.Depth, unit.Length))}}
	default:
		rows = []Row{{"shape and size", ""}}
	}
	rows = append(rows, Row{"height", known(p.Height, unit.Length)})
	if p.Base != 0 {
		rows = append(rows, Row{"foot over the table", unit.Format(p.Base, unit.Length)})
	}
	if p.Facing != 0 {
		rows = append(rows, Row{"turned, table at 0", unit.Format(p.Facing, unit.Angle)})
	}
	if p.Offset.X != 0 || p.Offset.Y != 0 {
		rows = append(rows, Row{"right, behind the axis", across(unit.Format(p.Offset.X, unit.Length), unit.Format(p.Offset.Y, unit.Length))})
	}
	return Group{"Product", rows}
}
