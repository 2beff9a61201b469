package page

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
)

// What the shots of producers are made of: a clock, a rig in the shot, a move, a lens.
const (
	shotClock = "[clock]\ncapture = \"24\"\nplayback = \"24\"\nloop = \"240 frames\"\n"
	shotRail  = `[rig.axis.rail]
letter = "X"
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
`
	shotSwing = "shake = { frequency = \"6 Hz\", damping = \"3 %\" }\n"
	shotTable = `[rig.axis.table]
letter = "A"
travel = "endless"
speed = "9000 deg/s"
acceleration = "90000 deg/s2"
steps = "3200 per turn"
`
	shotThere = "[axis.rail]\nfrom = \"40 mm\"\nto = \"100 mm\"\n"
	shotLens  = `[camera]
sensor-width = "36 mm"
sensor-height = "20.25 mm"
pixels-wide = 1920
pixels-high = 1080
focal-length = "50 mm"
focus = "555 mm"
aperture = "f/8"
shutter = "1/48 s"
[scene]
distance = "600 mm"
[scene.axis.rail]
heading = "left"
measured-at = "70 mm"
[scene.product]
shape = "cylinder"
radius = "45 mm"
height = "120 mm"
`
	shotStand = `[rig.stand.display]
drift = "0 %"
[rig.stand.display.speed.slow]
period = "PERIOD s"
uncertainty = "0 s"
[rig.stand.display.speed.crawl]
period = "80 s"
uncertainty = "0 s"
`
	shotButtons = `[rig.controller]
kind = "two-ends"
[rig.controller.buttons]
times = "1 s to 60 s in steps of 0.5 s"
pauses = "0 s to 10 s in steps of 1 s"
round-trips = "endless"
measured = ["20 rounds of 24 s in 482.1 s"]
[rig.controller.ramp]
law = "trapezoidal"
time = "1 s"
[rig.axis.rail]
travel = ["0 mm", "600 mm"]
speed = "none"
acceleration = "none"
[axis.rail]
from = "40 mm"
to = "340 mm"
`
	shotMotor = `motor-steps = 200
microsteps = 16
belt = { pitch = "2 mm", teeth = 20 }
load = { mass = "2 kg", incline = "30 deg" }
motor = { torque = ["0.05 N m at 0 turn/s", "0.05 N m at 20 turn/s"], detent = "0.01 N m", brake = "0 N m" }
`
	shotByFrame = "[clock]\nplayback = \"24\"\nloop = \"48 frames\"\n[frame-by-frame]\nexposure = \"1 s\"\nhand = \"2 s\"\n"
)

func in(old, now, text string) string { return strings.Replace(text, old, now, 1) }

// producer is who makes cures, a shot that meets it, and the verdict that has them.
type producer struct {
	name, shot, verdict, says string
	hand                      bool
}

func producers() []producer {
	fast := shotClock + shotRail + shotTable
	turned := func(turns string, faces int) string {
		return fmt.Sprintf("[axis.table]\nturns = %q\nsymmetry = %d\n", turns, faces)
	}
	stand := func(period, more string) string {
		return shotClock + shotRail + in("PERIOD", period, shotStand) + shotThere + "[spin.display]\nspeed = \"slow\"\n" + more
	}
	motor := in("steps = \"80 per mm\"\n", shotMotor, shotRail)
	return []producer{
		{"reach: a longer loop", in("240", "24", fast) + in("100 mm", "380 mm", shotThere), "speed", "a loop of ", false},
		{"reach: less far", in("240", "24", fast) + in("100 mm", "380 mm", shotThere), "speed", "to = ", false},
		{"reach: another law", in("3000 mm/s2\"\n", "3000 mm/s2\"\njerk = \"60000 mm/s3\"\n", in("240", "60", fast)) + shotThere + "law = \"harmonic\"\ndwell-far = \"9 frames\"\n", "jerk", "law = ", false},
		{"reach: elsewhere", fast + in("40 mm", "-20 mm", shotThere), "position", "from = ", false},
		{"reach: keys later", in("240", "48", fast) + "[axis.rail]\nmove = \"keys\"\nkeys = [{ at = \"0 frames\", pos = \"40 mm\" }, { at = \"24 frames\", pos = \"380 mm\" }]\n", "speed", "times as late", false},
		{"reach: fewer rounds", fast + in("\"endless\"", "[\"-10 deg\", \"270 deg\"]", "") + "[rig.axis.pan]\nletter = \"Y\"\nkind = \"rotary\"\ntravel = [\"-10 deg\", \"200 deg\"]\nspeed = \"90 deg/s\"\nacceleration = \"200 deg/s2\"\nsteps = \"160 per deg\"\n[take]\nrounds = 6\n[axis.pan]\nmove = \"turn\"\nturns = \"1/8\"\nlaw = \"uniform\"\n", "position", "rounds = ", false},
		{"reach: longer and elsewhere", in("240", "20", fast) + "[axis.rail]\nmove = \"keys\"\nkeys = [{ at = \"0 frames\", pos = \"40 mm\" }, { at = \"2 frames\", pos = \"300 mm\" }, { at = \"4 frames\", pos = \"20 mm\" }]\n", "position", "a loop of ", false},
		{"reach: by hand", in("240", "483", shotClock) + in("\"none\"", "\"30 mm/s\"", shotButtons), "speed", "a loop of ", false},
		{"reach: play taken up beyond the travel", in("hand = \"2 s\"", "hand = \"2 s\"\napproach = \"one-side\"", shotByFrame) + shotRail + "backlash = \"0.05 mm\"\n[axis.rail]\nfrom = \"0 mm\"\nto = \"400 mm\"\n", "position", "from = ", false},
		{"stepwise: time a frame", in("hand = \"2 s\"", "hand = \"2 s\"\nevery = \"4 s\"", shotByFrame) + shotRail + shotThere, "time a frame", "every = ", false},
		{"stepwise: places told", shotByFrame + "[take]\nrounds = 2000\n" + shotRail + shotTable + turned("1", 0)[:len("[axis.table]\nturns = \"1\"\n")], "places told", "rounds = ", false},
		{"judge: settling frame by frame", in("hand = \"2 s\"", "hand = \"2 s\"\nsettle = \"0 s\"", shotByFrame) + shotRail + shotSwing + shotThere, "after-shake of rail", "settle = ", false},
		{"judge: an even retime", in("loop", "retime = \"5/6\"\nloop", shotClock) + shotRail + shotThere, "cadence", "retime = ", false},
		{"judge: handles", fast + shotThere + "[take]\nrounds = 1\nhandles = \"12 frames\"\n", "handles", "rounds = ", false},
		{"judge: an axis that strobes", fast + turned("1", 120), "strobing of table", "turns = ", false},
		{"judge: a stand that strobes", stand("1.05", "symmetry = 12\n"), "strobing of display", "its speed crawl", false},
		{"judge: a stand that does not come round", stand("19", "symmetry = 6\n"), "closing of display", "a loop of ", false},
		{"job: a stand that breaks its bound", stand("19", "symmetry = 6\nwithin = \"1 deg\"\n"), "closing of display", "a loop of ", false},
		{"judge: a swing that is seen", in("240", "24", shotClock) + shotRail + shotSwing + shotThere + shotLens, "after-shake of rail", "", false},
		{"judge: a rest that is too short", in("240", "24", shotClock) + shotRail + shotSwing + shotThere + "dwell-far = \"4 frames\"\n" + in("1920", "64", in("1080", "36", shotLens)), "settling of rail", "dwell-far = ", false},
		{"judge: a swing at the seam", in("240", "24", shotClock) + shotRail + shotSwing + shotThere + shotLens + "[take]\nrounds = 1\n", "after-shake of rail at the seam", "rounds = ", false},
		{"judge: a load that falls", shotClock + motor + shotThere, "power loss of rail", "a brake of ", true},
		{"job: a motor that is too weak", in("240", "48", shotClock) + motor + in("0 deg", "30 deg", shotThere), "torque", "a load of ", true},
		{"job: a motor that a longer loop helps", in("240", "30", shotClock) + in("30 deg", "0 deg", strings.ReplaceAll(motor, "0.05", "0.01")) + shotThere, "torque", "times as long", false},
		{"judge: a fade that no hand can make", in("capture = \"24\"", "capture = \"240\"", shotClock) + shotRail + shotThere + "[[scene.lamps]]\nname = \"key\"\nby = \"hand\"\nfade = { from = \"0 %\", to = \"85 %\" }\n", "fade of key by hand", "", false},
		{"judge: two things for a hand", shotClock + shotRail + shotThere + "[[scene.lamps]]\nname = \"rim\"\nby = \"hand\"\nhand = \"left\"\nfade = { from = \"0 %\", to = \"85 %\" }\n[[cue]]\nname = \"petal\"\nhand = \"left\"\nbeats = 0\nreaction = \"0 s\"\nat = \"30 frames\"\n", "clash of petal and the dimmer of rim", "", false},
		{"judge: counts that run into each other", shotClock + shotRail + shotThere + "[[cue]]\nname = \"petal\"\nhand = \"left\"\nat = \"100 frames\"\n[[cue]]\nname = \"leaf\"\nhand = \"right\"\nat = \"106 frames\"\n", "counts to petal and leaf", "", false},
		{"ontime: fewer rounds", in("240", "1200", shotClock) + shotRail + in("100 mm", "41 mm", shotThere), onRig, "takes of ", false},
		{"job: a loop that the controller follows", in("240", "1200", shotClock) + shotRail + in("100 mm", "41 mm", shotThere), onRig, "a loop of ", false},
		{"judge: a rig's own rounds", in("240", "579", shotClock) + shotButtons + shotLens + "[take]\nrounds = 8\n", "closing of the rig", "", false},
	}
}

// Each producer of cures is met by a shot, and what it offers is on the page: a button that was
// pressed here, or what is for a hand, where it says so. Whatever else the report offers of that
// shot is on the page too.
func TestEveryProducerHasItsButton(t *testing.T) {
	pressed := map[string]int{}
	for _, p := range producers() {
		d := deskOf(t, []byte(p.shot), starter.Rig())
		a := d.answer(t.Context(), question{Text: p.shot})
		if !assert.NotNil(t, a.View, "%s: %v", p.name, a.Faults) {
			continue
		}
		x, err := d.controller(t.Context(), controllerQuestion{p.shot})
		require.NoError(t, err)
		all := slices.Concat(a.View.Verdicts, x.Verdicts)
		met := false
		for _, v := range all {
			for _, f := range v.Fits {
				met = met || v.Name == p.verdict && strings.Contains(f.Text, p.says) && f.Hand == p.hand && len(f.Edits) > 0 != p.hand
				if v.Name == onRig && len(f.Edits) > 0 {
					isFollowed(t, d, p, f)
				}
			}
		}
		assert.True(t, met, "%s: %s: %s", p.name, p.verdict, p.says)
		takeUp(t, d, p.name, a, pressed)
		offersOfReport(t, p.name, reportOf(t, d, p.shot), all)
	}
	t.Log(pressed)
}

// isFollowed holds that the controller follows with what it is offered for.
func isFollowed(t *testing.T, d *desk, p producer, f Fit) {
	t.Helper()
	text, err := d.edited(t.Context(), p.shot, typed(f.Edits))
	require.NoError(t, err)
	x, err := d.controller(t.Context(), controllerQuestion{text})
	require.NoError(t, err)
	for _, v := range x.Verdicts {
		assert.False(t, v.Name == onRig && v.Level == bad, "%s: %s: %s", p.name, f.Text, v.Text)
	}
}

// offersOfReport holds that whatever a report says would do is on the page.
func offersOfReport(t *testing.T, name string, report any, verdicts []Verdict) {
	t.Helper()
	var fits []Fit
	for _, v := range verdicts {
		for _, f := range v.Fits {
			assert.True(t, len(f.Edits) > 0 || f.Hand || strings.HasPrefix(f.Text, "not tried: "), "%s: %s: %s", name, v.Name, f.Text)
			fits = append(fits, f)
		}
	}
	on := func(said string) {
		said = strings.NewReplacer("would close: ", "", "worked out, not planned: ", "").Replace(said)
		told := []string{said}
		if _, laws, ok := strings.Cut(said, "with law = "); ok && strings.Contains(said, "at this travel and loop, ") {
			told = nil
			for law := range strings.SplitSeq(laws, " or ") {
				told = append(told, fmt.Sprintf("law = %q at this travel and loop", law))
			}
		}
		for _, said := range told {
			assert.True(t, slices.ContainsFunc(fits, func(f Fit) bool {
				return strings.Contains(said, f.Text) || strings.Contains(f.Text, said)
			}), "%s: %s", name, said)
		}
	}
	offersIn(report, "", on)
}

// offersIn calls f with all that is said to do, wherever in a report.
func offersIn(v any, key string, f func(string)) {
	switch x := v.(type) {
	case []any:
		for _, y := range x {
			if text, ok := y.(string); ok && (key == "fits" || key == "cures") {
				f(text)
				continue
			}
			offersIn(y, key, f)
		}
	case map[string]any:
		for k, y := range x {
			offersIn(y, k, f)
		}
	}
}
