package page

import "strings"

// plainNames are the names of verdicts in plain words, by what they are called or begin
// with; what follows is of which axis, lamp or hole.
var plainNames = []struct{ name, plain string }{
	{"limits", "what the rig can do"},
	{"speed", "how fast it goes"},
	{"acceleration", "how hard it speeds up"},
	{"jerk", "how smoothly it sets off"},
	{"position", "how far it goes"},
	{"seam in the picture", "the picture where the loop closes"},
	{"seam in the light", "the light where the loop closes"},
	{"seam", "the axes where the loop closes"},
	{"controller", "the controller"},
	{"cadence", "even running of the frames"},
	{"strobing of ", "turning seen as it is"},
	{"closing of ", "comes round as it was"},
	{"after-shake", "no swinging on"},
	{"settling of ", "rest enough to settle"},
	{"torque", "strength of the motors"},
	{"power loss of ", "staying up without current"},
	{"handles", "frames beside the cut"},
	{"remains of ", "nothing left in the picture"},
	{"fade of ", "a fade that a hand can do"},
	{"clash of ", "a hand for each thing"},
	{"counts to ", "counts that are told apart"},
	{"clearance", "room between lens and product"},
	{"way to the start", "the way from home"},
	{"magnification", "how large it comes out"},
	{"field of view", "how much is in the picture"},
	{"smear", "sharp while it moves"},
	{"screen speed", "how fast things cross the picture"},
	{"steps of ", "no single steps that show"},
	{"shutter angle", "how long the shutter is open"},
	{"backlash of ", "no halt where it turns round"},
	{"focus", "in focus"},
	{"diffraction", "no softness of a small aperture"},
	{"light", "light enough"},
	{"flicker", "steady light of the lamps"},
	{"colour of lamps", "one white of all lamps"},
	{"pull by hand", "a pull that a hand can do"},
	{"dark at the seam", "dark where the loop closes"},
	{"motors at rest", "motors that hold still"},
	{"ramps of ", "how it sets off between frames"},
}

// plainName is the name of a verdict in plain words, with the axis that it is of; its own
// where it is plain enough.
func plainName(name, axis string) string {
	for _, n := range plainNames {
		of, begins := strings.CutPrefix(name, n.name)
		if !begins || of != "" && !strings.HasSuffix(n.name, " ") && !strings.HasPrefix(of, " ") {
			continue
		}
		if axis == "" && strings.HasSuffix(n.name, " ") {
			axis = of
		}
		if axis != "" {
			return axis + ": " + n.plain
		}
		return n.plain
	}
	if axis != "" {
		return axis + ": " + name
	}
	return name
}
