package preview

import (
	"seamrail/motion/picture"
	"seamrail/motion/rig"
)

// Guess is a scene for a move of which only the axes are known, by their kind
// and by what they are called: what moves in mm pushes in, what turns carries
// the product.
func Guess(m picture.Motion) (picture.Scene, []string) {
	var s picture.Scene
	said := []string{"camera and scene are not known: [camera] and [scene] in the shot would tell"}
	st := &s.Stand
	for i := range m.AxisCount() {
		a := m.Axis(i)
		role := "no part"
		switch {
		case a.Name == "focus" && a.Kind == rig.Linear:
			st.FocusAxis, role = a.Name, "the focus"
		case a.Kind == rig.Linear:
			st.Slides, role = append(st.Slides, picture.Slide{Axis: a.Name, Zero: m.State(i, 0).Pos}), "the camera, which pushes in"
		case a.Name == "pan":
			st.PanAxis, role = a.Name, "the pan"
		case a.Name == "tilt":
			st.TiltAxis, role = a.Name, "the tilt"
		case st.TableAxis == "":
			st.TableAxis, role = a.Name, "the table"
		}
		said = append(said, "axis "+a.Name+" is taken for "+role)
	}
	return s, said
}
