package sheet

import (
	"fmt"
	"math"

	"seamrail/motion/scene"

	"seamrail/motion/base/unit"
	"seamrail/motion/fade"
)

// blankLamps is how many rows there are to fill in where no lamp is known.
const blankLamps = 3

// lamps is a row a lamp.
func lamps(s scene.Scene) Table {
	t := Table{Name: "Lamps", Heads: []string{"lamp", "gives", "set to", "beam", "from product", "bearing", "hangs over it by", "colour"}}
	for k, l := range s.Lamps {
		name := l.Name
		if name == "" {
			name = fmt.Sprintf("lamp %d", k+1)
		}
		t.Rows = append(t.Rows, []string{name, known(l.Lumens, unit.LightFlow), setTo(l), known(l.Beam, unit.Angle),
			known(l.Distance, unit.Length), bearing(l.Bearing), unit.Format(l.Rise, unit.Angle), known(l.Kelvin, unit.Temperature)})
	}
	for len(s.Lamps) == 0 && len(t.Rows) < blankLamps {
		t.Rows = append(t.Rows, make([]string, len(t.Heads)))
	}
	if len(s.Lamps) > 0 {
		t.Notes = []string{"Bearings are of the camera, seen from it, about the product. All lamps point at the product."}
	}
	return t
}

// setTo is the level of a lamp, or the levels that it goes between.
func setTo(l scene.Lamp) string {
	if l.Fade == nil {
		return percent(l.Level)
	}
	low, high := l.Fade.Range()
	return fmt.Sprintf("%s to %s, see dimmers", fade.Percent(low), fade.Percent(high))
}

func percent(n scene.Number) string {
	return fmt.Sprintf("%.0f %%", 100*n.Or(1))
}

// bearing says on which side of the camera a lamp stands.
func bearing(deg float64) string {
	switch {
	case math.Abs(deg) == 180:
		return "behind the product"
	case deg < 0:
		return unit.Format(-deg, unit.Angle) + " left"
	case deg > 0:
		return unit.Format(deg, unit.Angle) + " right"
	}
	return "above the camera"
}

// round2 keeps two decimals.
func round2(v float64) float64 { return math.Round(v*100) / 100 }
