package shot

import (
	"fmt"
	"strings"

	"seamrail/motion/base/source"
)

// carrier finds what carries the product, so that it turns with it: an axis in the
// role of the table, or a display stand. A table that holds still beside a stand
// carries nothing that turns: the stand is on it, or the product on the stand. Where
// more than one thing turns that could carry it, the shot has to say.
func (l *sceneReader) carrier(raw Raw, moves []AxisMove) {
	stands := source.InOrder(raw.Spin, func(s RawSpin) source.Place { return s.Place })
	l.path = "scene.product."
	if !l.apartNamed(raw, stands, moves) {
		return
	}
	if p := raw.product(); p.On.Set {
		l.mark("on", p.On)
		l.stated(p.On, raw, stands, moves)
		return
	}
	table := l.scene.Stand.TableAxis
	might := stands
	if m := moveOf(table, moves); m.Does != nil && !m.Stays() && !m.Faulty {
		might = append([]string{table}, stands...)
	}
	switch {
	case len(might) > 1:
		l.Add(raw.asked(stands[0]), "scene.product.on", "", "is missing: "+strings.Join(might, " and ")+" turn, and each could carry the product",
			fmt.Sprintf("say which one does, such as on = %q", stands[0]))
	case len(might) == 1 && len(stands) == 1:
		why := "nothing else turns"
		if table != "" {
			why = "it turns, and axis " + table + " holds still"
		}
		l.Default("scene.product.on", stands[0], why)
		l.scene.Stand.TableAxis = stands[0]
	}
}

// apartNamed refuses a stand of an axis' name: what is on it could not be said.
func (l *sceneReader) apartNamed(raw Raw, stands []string, moves []AxisMove) bool {
	for _, s := range stands {
		if moveOf(s, moves).Name != "" {
			l.Add(raw.Spin[s].Place, "spin."+s, "", "has the name of an axis, so that the product could not be said to stand on either",
				"call one of the two another")
			return false
		}
	}
	return true
}

// stated takes the shot's word for what the product stands on. What else turns, a
// table for the camera among it, then turns something else.
func (l *sceneReader) stated(on source.Text, raw Raw, stands []string, moves []AxisMove) {
	m := moveOf(on.Text, moves)
	_, isStand := raw.Spin[on.Text]
	if !isStand && (m.Name == "" || m.CheckKind(true) != nil) {
		l.Wrong(on, l.path+"on", "is no stand and no axis in degrees of this shot", "it has "+strings.Join(append(turnables(moves), stands...), ", "))
		return
	}
	if other := raw.role(m.Name); m.Name != "" && other.Set && other.Text != tableRole {
		l.Wrong(on, l.path+"on", "has the role "+other.Text+" in [scene.axis."+m.Name+"]", fmt.Sprintf("role = %q carries the product", tableRole))
		return
	}
	l.scene.Stand.TableAxis = on.Text
}

func moveOf(name string, moves []AxisMove) AxisMove {
	m, _ := Shot{Axes: moves}.Axis(name)
	return m
}

// turnables names the axes in degrees.
func turnables(moves []AxisMove) []string {
	var out []string
	for _, m := range moves {
		if m.CheckKind(true) == nil {
			out = append(out, m.Name)
		}
	}
	return out
}

// product is what the shot says of the product.
func (raw Raw) product() RawProduct {
	if raw.Scene == nil || raw.Scene.Product == nil {
		return RawProduct{}
	}
	return *raw.Scene.Product
}

// role is what the shot says of an axis' part in the picture.
func (raw Raw) role(axis string) source.Text {
	if raw.Scene == nil {
		return source.Text{}
	}
	return raw.Scene.Axis[axis].Role
}

// asked is where the answer to what carries the product belongs.
func (raw Raw) asked(stand string) source.Place {
	if p := raw.product(); p.Place.Line > 0 {
		return p.Place
	}
	return raw.Spin[stand].Place
}
