package page

import (
	"strings"
	"sync"
)

// lawWords says of each law with a name what is felt of it; force and pace are those
// of one way in one time.
var lawWords = map[string]string{
	"uniform":            "one pace from end to end, sudden at both",
	"harmonic":           "soft, with a slight jolt at both ends",
	"cycloidal":          "softer at the ends than 3-4-5, quicker between",
	"modified-trapezoid": "the least force of all without a jolt",
	"modified-sine":      "soft, with less force and pace than 3-4-5",
	"3-4-5":              "soft all the way, good for most",
	"4-5-6-7":            "softest at the ends, quickest between",
	"trapezoidal":        "the least force, with a jolt at each corner",
	"seven-segment":      "even ramps, the lowest pace without a jolt",
}

// keyWords says in plain words what a key of the shot file is, where the key itself
// would not say it to whom has not read of it. A key that two tables have with other
// meanings has the table's name before it.
var keyWords = sync.OnceValue(func() map[string]string {
	return map[string]string{
		// How axes move.
		"law": "Ease", "back-law": "Ease of the way back", "move": "Kind of move",
		"dwell-far": "Rest at the far end", "dwell-near": "Rest at the near end", "cycles": "Times there and back", "out-share": "Share of the way out",
		"phase": "Already past at the first frame", "ramp": "Ramp, share of the move", "jerk-share": "Rounding of the ramp", "least": "What is kept least",
		"swings": "Swings of the rig in a move", "swing-damping": "Damping of the swing", "shaped": "Spread against shake", "even": "Share at an even pace",
		"turns": "Turns in a loop", "start": "At the first frame", "symmetry": "Faces that look alike", "advance": "Turned on in a loop", "curve": "Curve between the keys",
		"about": "Middle of the swing", "amplitude": "To either side", "decay": "Share that dies away", "follow": "Follows", "as": "What it does", "focal": "Focal length",
		"pos": "Place", "tension": "Slowed at the key", "ease-in": "Ease into the key", "ease-out": "Ease out of the key", "within": "May pass beside it by",
		// Rates, lengths, takes.
		"shot": "Name of the shot", "clock.capture": "Camera, frames a second", "clock.playback": "Film, frames a second", "clock.retime": "Speed of the picture over real", "clock.loop": "Length of the loop",
		"clock.offers": "Other rates of the camera", "clock.between": "Lengths that would do", "clock.pace": "Keeps to the times, or as fast as it can", "clock.rounding": "Rounds to whole frames",
		"take.rounds": "Rounds in one take", "take.handles": "Kept beside the cut", "take.timecode": "Timecode of the first frame",
		// The scene.
		"scene.distance": "Lens to the table's axis", "scene.aside": "Lens to the right", "scene.height": "Lens above the table", "scene.pan": "Camera turned left", "scene.tilt": "Camera looks up",
		"scene.mains": "Mains", "product.base": "Foot above the table", "product.radius": "Middle to the side", "product.facing": "Turned by", "product.offset": "Off the table's axis",
		"axis.role": "What it does to the picture", "axis.heading": "Goes towards", "axis.rise": "Climbs by", "axis.measured-at": "Stood at, when measured",
		"lamps.kelvin": "Colour temperature", "lamps.lumens": "Light in all", "lamps.beam": "Angle of its cone", "lamps.bearing": "To the right of the camera", "lamps.rise": "Hangs up by", "lamps.level": "Set to, of its full light",
		"lamps.source": "Colour as it dims", "lamps.between": "Ease between the keys", "lamps.curve": "What its dimmer makes of the dial", "pull.between": "Ease between the keys", "pull.follow": "Kept in focus",
		// The camera.
		"camera.sensor-width": "Sensor, width", "camera.sensor-height": "Sensor, height", "camera.pixels-wide": "Picture, pixels wide", "camera.pixels-high": "Picture, pixels high",
		"camera.pitch": "Pixel to pixel on the sensor", "camera.focus": "Lens to what is in focus", "camera.aperture": "Aperture, f", "camera.iso": "Sensitivity, ISO", "camera.confusion": "Widest sharp spot",
		// Display stands and hands.
		"spin.speed": "Speed of the stand", "spin.within": "May be off its face by", "cue.at": "Seen at", "cue.fall": "Falls", "cue.flow": "Leaves the spout at", "cue.lead": "From the hand's move until it leaves", "cue.leaves": "Leaves in the picture",
	}
})

// tableWords are the tables of the shot file, as headings.
var tableWords = map[string]string{
	"": "The shot", "clock": "Rates and length", "take": "How it is filmed", "frame-by-frame": "Frame by frame", "rig": "The rig", "axis": "How it moves", "spin": "Display stand",
	"camera": "Camera and lens", "camera.pull": "Pull of the focus", "scene": "Camera and table", "scene.product": "The product", "scene.axis": "What it does to the picture", "scene.lamps": "Lamp",
	"scene.lamps.fade": "Fade of the lamp", "scene.holes": "Hole", "scene.dark": "Dark surface", "sync-mark": "Mark for the camera", "cue": "Cue of a hand", "axis.keys": "Key", "axis.marks": "Found sharp", "camera.pull.keys": "Key of the focus", "scene.lamps.keys": "Key of the lamp", "camera.scale": "Mark of the focus ring", "picture": "What counts as a good picture",
}

// named are the tables in which each is under a name of its own.
var named = map[string]bool{"axis": true, "spin": true, "scene.axis": true, "rig.axis": true, "stand": true, "stand.speed": true, "output": true}

// rigTables are the tables of a rig file, as headings.
var rigTables = sync.OnceValue(func() map[string]string {
	return map[string]string{
		"": "The rig", "axis": "The axis", "axis.belt": "Belt of", "axis.screw": "Screw of", "axis.load": "What it moves:", "axis.motor": "Motor of", "axis.shake": "Shake of",
		"axis.settings": "What the board is set to for", "axis.reports": "What the board calls that of",
		"controller": "The controller", "controller.ramp": "How the controller sets off", "controller.buttons": "Its buttons", "controller.settings": "What it is set to", "controller.reports": "What it calls that",
		"stand": "The display stand", "stand.speed": "Speed of the display stand", "output": "The output",
	}
})

// plainTable is what a table is called on the page, with its name and number, and the
// path of its kind.
func plainTable(group string) (words, kind string) { return headed(tableWords, group) }

func headed(headings map[string]string, group string) (words, kind string) {
	var kinds, of []string
	last := "" // kind whose name is read already
	for part := range strings.SplitSeq(group, ".") {
		if k := strings.Join(kinds, "."); named[k] && k != last {
			of, last = append(of, part), k
			continue
		}
		name, number, many := strings.Cut(part, "[")
		kinds = append(kinds, name)
		if many {
			of = append(of, strings.TrimSuffix(number, "]"))
		}
	}
	kind = strings.Join(kinds, ".")
	words, known := headings[kind]
	if !known {
		words = spaced(strings.ReplaceAll(kind, ".", " "))
	}
	return strings.Join(append([]string{words}, of...), " "), kind
}

// plainKey is what a key is called on the page: its words, or the key with blanks.
func plainKey(kind, label string) string {
	key, number, numbered := strings.Cut(label, " ")
	words := spaced(key)
	for _, table := range []string{kind[strings.LastIndex(kind, ".")+1:] + ".", ""} {
		if w, known := keyWords()[table+key]; known {
			words = w
			break
		}
	}
	if numbered {
		words += " " + number
	}
	return words
}

// ofRig gives those of a rig file theirs.
func ofRig(list []Value) []Value {
	for i, v := range plainly(list) {
		list[i].In, _ = headed(rigTables(), v.Group)
	}
	return list
}

func spaced(key string) string {
	if key == "" {
		return ""
	}
	return strings.ToUpper(key[:1]) + strings.ReplaceAll(key[1:], "-", " ")
}

// plainly gives values the words of their keys and tables.
func plainly(list []Value) []Value {
	for i, v := range list {
		in, kind := plainTable(v.Group)
		list[i].Words, list[i].In = plainKey(kind, v.Label), in
	}
	return list
}
