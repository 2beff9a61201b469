package preview

import (
	"seamrail/motion/camera/picture"
	"seamrail/motion/scene"
	"seamrail/motion/spec/rig"
)

// carrier is the first axis that turns all through the loop or at frame 0, or else
// the first that could; -1 where none could. What holds still beside something that
// turns does not turn the product.
func carrier(m picture.Motion) int {
	out := -1
	half := m.Period().Float() / 2
	for i := range m.AxisCount() {
		a := m.Axis(i)
		if a.Kind != rig.Rotary || a.Name == "pan" || a.Name == "tilt" || a.Name == "focus" {
			continue
		}
		if m.State(i, 0).Vel != 0 || m.State(i, half).Pos != m.State(i, 0).Pos {
			return i
		}
		if out < 0 {
			out = i
		}
	}
	return out
}

// Guess is a scene for a move of which only the axes are known, by their kind
// and by what they are called: what moves in mm pushes in, what turns carries
// the product.
func Guess(m picture.Motion) (scene.Scene, []string) {
	var s scene.Scene
	said := []string{"camera and scene are not known: [camera] and [scene] in the shot would tell"}
	st, table := &s.Stand, carrier(m)
	for i := range m.AxisCount() {
		a := m.Axis(i)
		role := "no part"
		switch {
		case a.Name == "focus" && a.Kind == rig.Linear:
			st.FocusAxis, role = a.Name, "the focus"
		case a.Kind == rig.Linear:
			st.Slides, role = append(st.Slides, scene.Slide{Axis: a.Name, Zero: m.State(i, 0).Pos}), "the camera, which pushes in"
		case a.Name == "pan":
			st.PanAxis, role = a.Name, "the pan"
		case a.Name == "tilt":
			st.TiltAxis, role = a.Name, "the tilt"
		case i == table:
			st.TableAxis, role = a.Name, "the table"
		}
		said = append(said, "axis "+a.Name+" is taken for "+role)
	}
	return s, said
}
