package judge_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/base/exact"
	"seamrail/motion/base/fault"
	"seamrail/motion/base/source"
	"seamrail/motion/camera/lensview"
	"seamrail/motion/camera/picture"
	"seamrail/motion/cue"
	"seamrail/motion/plan"
	"seamrail/motion/plan/judge"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
	"seamrail/motion/verify"
	"seamrail/motion/vibration/survey"
)

// bench is a rail and a table, and what is said of it in the place of %s.
const bench = `
[rig.axis.rail]
letter = "X"
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
%s
[rig.axis.table]
letter = "A"
travel = "endless"
speed = "9000 deg/s"
acceleration = "90000 deg/s2"
steps = "3200 per turn"
`

const clockOf = `
[clock]
capture = "24"
playback = "24"
loop = "240 frames"
`

const there = `
[axis.rail]
from = "40 mm"
to = "100 mm"
`

// made plans a shot of these parts as the commands do, with so many pixels to a
// millimetre for its after-shake.
func made(t require.TestingT, perMM float64, parts ...string) judge.Case {
	s, err := shot.Decode("lantern.toml", []byte(strings.Join(parts, "\n")), nil)
	require.NoError(t, err)
	return of(t, s, perMM)
}

func of(t require.TestingT, s shot.Shot, perMM float64) judge.Case {
	p, err := plan.Build(s, *s.Rig)
	require.NoError(t, err)
	tr := trajectory.New(p)
	seen, err := lensview.Examine(tr, s)
	require.NoError(t, err)
	hands, err := cue.New(p, s)
	require.NoError(t, err)
	return judge.Case{
		Shot: s, Rig: *s.Rig, Plan: p, Verified: verify.Check(tr), Picture: seen,
		Shakes: survey.OfPlan(p, perMM), Cues: hands, Pending: true,
	}
}

// find returns the verdict on a check.
func find(t require.TestingT, c judge.Case, check string) picture.Verdict {
	r := picture.Report{Verdicts: c.Verdicts()}
	v, ok := r.Find(check)
	require.True(t, ok, "%s among %v", check, r.Verdicts)
	return v
}

// again is the case with a value changed as a cure says.
func again(t require.TestingT, c judge.Case, path, value string) judge.Case {
	s, err := c.Shot.Changed(source.Override{Path: path, Text: value, Origin: "cure"})
	require.NoError(t, err)
	return of(t, s, 0)
}

func TestCadence(t *testing.T) {
	even := made(t, 0, fmt.Sprintf(bench, ""), clockOf, there)
	assert.Equal(t, picture.Good, find(t, even, "cadence").Level)

	odd := made(t, 0, fmt.Sprintf(bench, ""), strings.Replace(clockOf, `loop =`, "retime = \"5/6\"\nloop =", 1), there)
	v := find(t, odd, "cadence")
	assert.Equal(t, picture.Poor, v.Level)
	assert.Contains(t, v.Text, "shown 2, 1, 1, 1, 1 times in turn: it stutters")
	require.Len(t, v.Cures.Words(), 2)
	assert.Contains(t, v.Cures.Words()[0], `retime = "1/2", 2 times slower than life`)
	assert.Contains(t, v.Cures.Words()[1], `retime = "1", as fast as life`)
	for _, retime := range []string{"1/2", "1"} {
		assert.Equal(t, picture.Good, find(t, again(t, odd, "clock.retime", retime), "cadence").Level, retime)
	}
}

// A cure that the rig cannot do is not offered: at half of life's speed the rail has
// a second and a half for twice 200 mm, and would break its speed.
func TestACureIsPlanned(t *testing.T) {
	quick := strings.Replace(there, "100 mm", "240 mm", 1)
	c := made(t, 0, fmt.Sprintf(bench, ""), strings.NewReplacer("240", "144", `loop =`, "retime = \"2/3\"\nloop =").Replace(clockOf), quick)
	v := find(t, c, "cadence")
	require.Len(t, v.Cures.Words(), 2)
	c = made(t, 0, fmt.Sprintf(bench, ""), strings.NewReplacer("240", "72", `loop =`, "retime = \"2/3\"\nloop =").Replace(clockOf), quick)
	v = find(t, c, "cadence")
	require.Len(t, v.Cures.Words(), 1, "%v", v.Cures.Words())
	assert.Contains(t, v.Cures.Words()[0], `retime = "1", as fast as life`)
}

// lens is a camera that looks at a lantern; so many pixels make its width.
const lens = `
[camera]
sensor-width = "36 mm"
sensor-height = "20.25 mm"
pixels-wide = %d
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

// A stutter is seen where it moves the picture by more than half a pixel. The rail
// goes at most 1.875 times 1 mm in 120 frames, which are 100 captured; the near
// face is 555 mm away, and in focus. By turns a frame hangs back by up to 5/6 of a
// captured one.
func TestAStutterIsMeasuredInThePicture(t *testing.T) {
	odd := strings.Replace(clockOf, `loop =`, "retime = \"5/6\"\nloop =", 1)
	small := strings.Replace(there, "100 mm", "41 mm", 1)
	for wide, want := range map[int]picture.Level{4000: picture.Fair, 32000: picture.Poor} {
		c := made(t, 0, fmt.Sprintf(bench, ""), odd, small, fmt.Sprintf(lens, wide))
		v := find(t, c, "cadence")
		px, ok := v.Figure("stutter")
		require.True(t, ok)
		image := 50 * 555 / (555 - 50.0) // mm from the lens to the sensor
		perMM := image / 555 * float64(wide) / 36
		assert.InEpsilon(t, 1.875/100*5/6*perMM, px, 0.02, "by hand")
		assert.Equal(t, want, v.Level, "%v px", px)
	}
}

// A table of so many faces turns so many of them in 240 pictures.
func turned(turns string, faces int) string {
	return fmt.Sprintf("[axis.table]\nturns = %q\nsymmetry = %d\n", turns, faces)
}

func TestStrobing(t *testing.T) {
	for _, c := range []struct {
		turns string
		faces int
		want  picture.Level
		words string
	}{
		{"59/120", 120, picture.Good, "seen as it turns"}, // 0.246 of a face
		{"1/2", 120, picture.Fair, "but in steps"},
		{"119/120", 120, picture.Fair, "but in steps"}, // 0.496
		{"1", 120, picture.Poor, "nobody can say which way it turns"},
		{"-1", 120, picture.Poor, "nobody can say which way it turns"},
		{"3/2", 120, picture.Poor, "seems to turn backwards"},
		{"2", 120, picture.Poor, "seems to stand still"},
		{"5/2", 120, picture.Poor, "more slowly than it does"},
	} {
		v := find(t, made(t, 0, fmt.Sprintf(bench, ""), clockOf, turned(c.turns, c.faces)), "strobing of table")
		assert.Equal(t, c.want, v.Level, c.turns)
		assert.Contains(t, v.Text, c.words, c.turns)
	}
}

// What is offered against strobing does not strobe.
func TestCuresOfStrobing(t *testing.T) {
	c := made(t, 0, fmt.Sprintf(bench, ""), clockOf, turned("1", 120))
	v := find(t, c, "strobing of table")
	require.Equal(t, []string{"a loop of 485 frames", `turns = "59/120"`}, v.Cures.Words())
	assert.Equal(t, picture.Good, find(t, again(t, c, "clock.loop", "485 frames"), "strobing of table").Level)
	assert.Equal(t, picture.Good, find(t, again(t, c, "axis.table.turns", "59/120"), "strobing of table").Level)
}

// An eased turn is judged at its fastest: the law 3-4-5 is 1.875 times as fast as
// one that is even.
func TestAnEasedTurnStrobesAtItsFastest(t *testing.T) {
	eased := func(turns string) picture.Verdict {
		return find(t, made(t, 0, fmt.Sprintf(bench, ""), clockOf, turned(turns, 120)+"law = \"3-4-5\"\n"), "strobing of table")
	}
	v := eased("1/2")
	got, _ := v.Figure("of a face")
	assert.InDelta(t, 1.875/4, got, 1e-4)
	assert.Equal(t, picture.Fair, v.Level)
	v = eased("32/60")
	assert.Equal(t, picture.Poor, v.Level)
	assert.Contains(t, v.Text, "at its fastest")
}

// Nobody has counted the faces: what few would strobe is not known, what only a
// texture would is no matter.
func TestFacesThatNobodyCounted(t *testing.T) {
	at := func(turns string) picture.Verdict {
		return find(t, made(t, 0, fmt.Sprintf(bench, ""), clockOf, "[axis.table]\nturns = \""+turns+"\"\n"), "strobing of table")
	}
	assert.Equal(t, picture.Good, at("2").Level)
	v := at("3")
	assert.Equal(t, picture.Unknown, v.Level)
	assert.Contains(t, v.Text, "a product of 40 alike faces or marks would strobe")
}

const stand = `
[rig.stand.display]
%s
[rig.stand.display.speed.slow]
period = "%s s"
uncertainty = "%s s"
[rig.stand.display.speed.crawl]
period = "80 s"
uncertainty = "0 s"
`

func onStand(t *testing.T, drift, period, uncertainty, spin string) judge.Case {
	return made(t, 0, fmt.Sprintf(bench, ""), fmt.Sprintf(stand, drift, period, uncertainty), clockOf, there, "[spin.display]\nspeed = \"slow\"\n"+spin)
}

// A stand strobes where its speed, as far off as it may be, takes it to half a face:
// at 12 faces a turn of 4.2 s is 0.119 of a face a picture, and of 1 s 0.5.
func TestAStandStrobes(t *testing.T) {
	at := func(drift, period string) picture.Verdict {
		return find(t, onStand(t, drift, period, "0", "symmetry = 12\n"), "strobing of display")
	}
	assert.Equal(t, picture.Good, at(`drift = "0 %"`, "4.2").Level)
	assert.Equal(t, picture.Fair, at(`drift = "0 %"`, "1.05").Level)
	v := at(`drift = "6 %"`, "1.05")
	assert.Equal(t, picture.Poor, v.Level)
	assert.Contains(t, v.Text, "as its speed may be off")
	assert.Contains(t, v.Cures.Words(), "captured at 50 frames/s, if the camera has it: 2.083 times slower than life")
	assert.Contains(t, v.Cures.Words(), "its speed crawl")
}

func TestClosing(t *testing.T) {
	at := func(drift, period, uncertainty, spin string) (picture.Verdict, judge.Case) {
		c := onStand(t, drift, period, uncertainty, "symmetry = 6\n"+spin)
		return find(t, c, "closing of display"), c
	}
	// In ten seconds a turn of 20 s is half a turn, three faces of six.
	v, c := at(`drift = "0 %"`, "20", "0", "within = \"1 deg\"\n")
	assert.Equal(t, picture.Good, v.Level)
	assert.True(t, c.Verified.OK)
	// Half of 1 % of 180 degrees are 0.9, and two uncertainties of 0.01 s 0.18.
	v, c = at(`drift = "0.5 %"`, "20", "0", "within = \"1 deg\"\n")
	assert.Equal(t, picture.Good, v.Level)
	assert.True(t, c.Verified.OK)
	v, c = at(`drift = "0.5 %"`, "20", "0.01", "within = \"1 deg\"\n")
	assert.Equal(t, picture.Poor, v.Level)
	assert.False(t, c.Verified.OK)
	assert.Contains(t, v.Text, "not known to keep the bound that the shot states, 1 deg")
	// With a bound that nobody states it is asked, and bars nothing.
	v, c = at("", "20", "0", "")
	assert.Equal(t, picture.Unknown, v.Level)
	assert.Contains(t, v.Text, "without its drift, which the rig file does not state")
	assert.True(t, c.Verified.OK)
	// At 19 s it is 9.5 degrees past its face, and would be on one in 9.5 s.
	v, c = at(`drift = "0 %"`, "19", "0", "")
	assert.Equal(t, picture.Poor, v.Level)
	assert.Contains(t, v.Cures.Words(), "a loop of 228 frames (9.5 s)")
	assert.Equal(t, picture.Good, find(t, again(t, c, "clock.loop", "228 frames"), "closing of display").Level)
	assert.NotContains(t, c.Headline(c.Verdicts()).Words, "The loop closes")
}

const swing = `shake = { frequency = "6 Hz", damping = "3 %" }`

// The same swing is seen or not by the pixels that it is: no more than half of one
// is not, more than one is.
func TestAfterShake(t *testing.T) {
	quick := strings.Replace(clockOf, "240", "24", 1)
	still := made(t, 1, fmt.Sprintf(bench, swing), quick, there)
	most, ok := find(t, still, "after-shake of rail").Figure("swing")
	require.True(t, ok)
	for px, want := range map[float64]picture.Level{0.499: picture.Good, 0.501: picture.Fair, 0.999: picture.Fair, 1.001: picture.Poor} {
		c := made(t, px/most, fmt.Sprintf(bench, swing), quick, there)
		assert.Equal(t, want, find(t, c, "after-shake of rail").Level, "%v px", px)
	}
	seen := find(t, made(t, 2/most, fmt.Sprintf(bench, swing), quick, there), "after-shake of rail")
	require.NotEmpty(t, seen.Cures.Words())
	for _, cure := range seen.Cures.Words() {
		where, lines := quick, there
		if strings.HasPrefix(cure, "a loop of ") {
			where = "\n[clock]\ncapture = \"24\"\nplayback = \"24\"\nloop = \"" + strings.TrimPrefix(cure, "a loop of ") + "\"\n"
		} else {
			lines += cure + "\n"
		}
		c := made(t, 2/most, fmt.Sprintf(bench, swing), where, lines)
		assert.Less(t, find(t, c, "after-shake of rail").Level, picture.Poor, cure)
		assert.True(t, c.Verified.OK)
	}
	assert.Equal(t, picture.Unknown, find(t, made(t, 0, fmt.Sprintf(bench, swing), quick, there), "after-shake of rail").Level)
	v := find(t, made(t, 1, fmt.Sprintf(bench, ""), quick, there), "after-shake")
	assert.Equal(t, picture.Unknown, v.Level)
	assert.Equal(t, []string{"shake of rail"}, v.Missing)
}

// A rest is long enough where what is left of the swing as it ends is half a pixel.
func TestARestThatIsTooShort(t *testing.T) {
	rest := there + "dwell-far = \"4 frames\"\n"
	quick := strings.Replace(clockOf, "240", "24", 1)
	left, ok := find(t, made(t, 1, fmt.Sprintf(bench, swing), quick, rest), "settling of rail").Figure("left")
	require.True(t, ok)
	assert.Equal(t, picture.Good, find(t, made(t, 0.499/left, fmt.Sprintf(bench, swing), quick, rest), "settling of rail").Level)
	v := find(t, made(t, 0.501/left, fmt.Sprintf(bench, swing), quick, rest), "settling of rail")
	assert.Equal(t, picture.Poor, v.Level)
	assert.Contains(t, v.Text, "a rest of rail lasts 4 captured frames, and it takes 5 to settle")
	// Five frames would do if the way to the rest took no less time for them.
	require.Contains(t, v.Cures.Words(), `dwell-far = "7 frames"`)
	longer := strings.Replace(rest, "4 frames", "7 frames", 1)
	assert.Equal(t, picture.Good, find(t, made(t, 0.501/left, fmt.Sprintf(bench, swing), quick, longer), "settling of rail").Level)
}

// The first round swings as the take began; later ones have forgotten that. By
// hand: what is left after n rounds of T falls by exp(-zeta w T) each.
func TestAfterShakeAtTheSeam(t *testing.T) {
	quick := strings.Replace(clockOf, "240", "24", 1)
	loop := func(rounds int) judge.Case {
		return made(t, 1, fmt.Sprintf(bench, swing), quick, there, fmt.Sprintf("[take]\nrounds = %d\n", rounds))
	}
	const check = "after-shake of rail at the seam"
	first, _ := find(t, loop(1), check).Figure("jump")
	second, _ := find(t, loop(2), check).Figure("jump")
	assert.InEpsilon(t, 0.32274, second/first, 1e-4, "exp(-0.03 * 2 pi 6)")
	scale := 0.6 / first
	seen := made(t, scale, fmt.Sprintf(bench, swing), quick, there, "[take]\nrounds = 1\n")
	v := find(t, seen, check)
	assert.Equal(t, picture.Poor, v.Level)
	assert.Equal(t, []string{"rounds = 2, of which the one to keep has settled"}, v.Cures.Words())
	settled := made(t, scale, fmt.Sprintf(bench, swing), quick, there, "[take]\nrounds = 2\n")
	assert.Equal(t, picture.Good, find(t, settled, check).Level)
}

func TestTorque(t *testing.T) {
	v := find(t, made(t, 0, fmt.Sprintf(bench, ""), clockOf, there), "torque")
	assert.Equal(t, picture.Unknown, v.Level)
	assert.Equal(t, []string{"load and motor of rail"}, v.Missing)
}

// rising is a rail that rises, driven by a belt, with a motor of so much torque.
func rising(torque, brake string) string {
	return strings.Replace(strings.Replace(fmt.Sprintf(bench, fmt.Sprintf(`motor-steps = 200
microsteps = 16
load = { mass = "2 kg", incline = "30 deg" }
motor = { torque = ["%s N m at 0 turn/s", "%s N m at 20 turn/s"], detent = "0.01 N m", brake = "%s N m" }`, torque, torque, brake)),
		`steps = "80 per mm"
motor`, `belt = { pitch = "2 mm", teeth = 20 }
motor`, 1), "travel = [", "travel = [", 1)
}

// Half of 2 kg pull with 9.81 N, at 40 mm a turn 62.4 mN m. The brake that is offered
// holds, and a bit less than half of it does not.
func TestWhatFalls(t *testing.T) {
	const check = "power loss of rail"
	c := made(t, 0, rising("0.5", "0"), clockOf, there)
	assert.Equal(t, picture.Good, find(t, c, "torque").Level)
	v := find(t, c, check)
	assert.Equal(t, picture.Poor, v.Level)
	require.Len(t, v.Cures.Words(), 1)
	var brake float64
	_, err := fmt.Sscanf(v.Cures.Words()[0], "a brake of %g N m", &brake)
	require.NoError(t, err)
	assert.InDelta(t, 2*0.0624-0.01, brake, 0.02)
	assert.Equal(t, picture.Good, find(t, made(t, 0, rising("0.5", fmt.Sprint(brake)), clockOf, there), check).Level)
	assert.Equal(t, picture.Poor, find(t, made(t, 0, rising("0.5", "0.03"), clockOf, there), check).Level)
	assert.Equal(t, picture.Fair, find(t, made(t, 0, rising("0.5", "0.08"), clockOf, there), check).Level, "not twice over")
	short := made(t, 0, rising("0.05", "0"), clockOf, there)
	assert.Equal(t, picture.Poor, find(t, short, "torque").Level)
	assert.Equal(t, judge.Barred, short.Headline(short.Verdicts()).Tone)
}

func TestHandles(t *testing.T) {
	c := made(t, 0, fmt.Sprintf(bench, ""), clockOf, there, "[take]\nrounds = 1\nhandles = \"12 frames\"\n")
	v := find(t, c, "handles")
	assert.Equal(t, picture.Poor, v.Level)
	require.Equal(t, []string{"rounds = 3"}, v.Cures.Words())
	assert.Equal(t, picture.Good, find(t, again(t, c, "take.rounds", "3"), "handles").Level)
	assert.Equal(t, picture.Poor, find(t, again(t, c, "take.rounds", "2"), "handles").Level)
}

// A pour is asked what it leaves, and is not said to close the loop until that is
// nothing.
func TestWhatHandsLeave(t *testing.T) {
	pour := "[[cue]]\nname = \"tea\"\nat = \"120 frames\"\n"
	at := func(more string) (picture.Verdict, string) {
		c := made(t, 0, fmt.Sprintf(bench, ""), clockOf, there, pour+more)
		return find(t, c, "remains of tea"), c.Headline(c.Verdicts()).Words
	}
	v, words := at("")
	assert.Equal(t, picture.Unknown, v.Level)
	assert.NotContains(t, v.Text, "has happened")
	assert.Contains(t, words, "The axes come round as they set out, and the rig can do it; every check that could be made passed. Not known: ")
	v, words = at("leaves = \"nothing\"\n")
	assert.Equal(t, picture.Good, v.Level)
	assert.Contains(t, words, "The loop closes and the rig can do it")
	v, words = at("leaves = \"a fuller cup\"\nrounds = \"each\"\n")
	assert.Equal(t, picture.Poor, v.Level)
	assert.Contains(t, v.Text, "tea leaves a fuller cup")
	assert.Contains(t, v.Text, "it has happened once before the round to keep, round 2")
	assert.Contains(t, words, "will not do: remains of tea")
	v, words = at("rounds = 1\nleaves = \"a fuller cup\"\n")
	assert.Equal(t, picture.Fair, v.Level, "the cup is as full in its first frame as in its last")
	assert.Contains(t, v.Text, "tea does not happen in the round to keep, round 2")
	assert.NotContains(t, words, "remains of tea")
	assert.Contains(t, words, "The loop closes and the rig can do it")
}

// Whatever the verdicts, the headline names each that fails and each that is not
// known, and says that all is well of nothing else.
func TestTheHeadlineLeavesNothingOut(t *testing.T) {
	base := made(t, 0, fmt.Sprintf(bench, ""), clockOf, there)
	rapid.Check(t, func(r *rapid.T) {
		c := base
		c.Pending = rapid.Bool().Draw(r, "pending")
		c.Verified.OK = rapid.Bool().Draw(r, "verified")
		draw := func(kind string) []picture.Verdict {
			var out []picture.Verdict
			for i := range rapid.IntRange(0, 4).Draw(r, kind) {
				out = append(out, picture.Verdict{
					Check: fmt.Sprintf("%s check %d", kind, i), Level: picture.Level(rapid.IntRange(0, 3).Draw(r, "level")),
				})
			}
			return out
		}
		if rapid.Bool().Draw(r, "pictured") {
			c.Picture = &picture.Report{Verdicts: draw("picture")}
		}
		others := draw("other")
		h := c.Headline(others)
		all := others
		if c.Picture != nil {
			all = append(append([]picture.Verdict{}, others...), c.Picture.Verdicts...)
		}
		poor, unknown := 0, 0
		for _, v := range all {
			named := strings.Contains(h.Words, v.Check)
			assert.Equal(r, v.Level == picture.Poor || v.Level == picture.Unknown, named, "%s of %q", v.Check, h.Words)
			if v.Level == picture.Poor {
				poor++
			}
			if v.Level == picture.Unknown {
				unknown++
			}
		}
		assert.Equal(r, c.Verified.OK, h.Ready())
		assert.Equal(r, !h.Ready(), h.Stamp == "NOT READY")
		assert.Equal(r, h.Ready() && poor > 0, h.Stamp == "READY, BUT")
		well := poor == 0 && unknown == 0 && c.Picture != nil && c.Verified.OK && c.Pending
		assert.Equal(r, well, strings.Contains(h.Words, "every check passed"), h.Words)
		assert.False(r, h.Tone == judge.Clear, "the controller is not known to follow")
	})
}

func BenchmarkVerdicts(b *testing.B) {
	c := made(b, 0, fmt.Sprintf(bench, ""), clockOf, there, turned("1", 120))
	for b.Loop() {
		c.Verdicts()
	}
}

// A turn of the focus ring leaves nothing behind that anybody would have to be told of.
func TestATurnOfTheRingLeavesNothing(t *testing.T) {
	c := made(t, 0, fmt.Sprintf(bench, ""), clockOf, there,
		"[camera.pull]\nkeys = [{ at = \"0 frames\", focus = \"409 mm\" }, { at = \"120 frames\", focus = \"349 mm\" }]\n")
	pulled := c.Shot.WithTurns([]shot.Turn{{Sets: exact.Int(0), Arrives: exact.Int(5), To: 349}}, c.Plan.Round())
	hands, err := cue.New(c.Plan, pulled)
	require.NoError(t, err)
	require.NotEmpty(t, hands.Cues)
	c.Cues = hands
	for _, v := range c.Verdicts() {
		assert.NotContains(t, v.Check, "focus to")
	}
}

// A fade that no hand can make will not do, and one that a hand can is not spoken of.
func TestAFadeTooQuickForAHand(t *testing.T) {
	const lamp = "[[scene.lamps]]\nname = \"key\"\nby = \"hand\"\nfade = { from = \"0 %\", to = \"85 %\" }\n"
	slow := made(t, 0, fmt.Sprintf(bench, ""), clockOf, there, lamp)
	quick := made(t, 0, fmt.Sprintf(bench, ""), strings.Replace(clockOf, `capture = "24"`, `capture = "240"`, 1), there, lamp)
	find := func(c judge.Case) []picture.Verdict {
		var out []picture.Verdict
		for _, v := range c.Verdicts() {
			if strings.HasPrefix(v.Check, "fade of") || strings.HasPrefix(v.Check, "remains") {
				out = append(out, v)
			}
		}
		return out
	}
	assert.Empty(t, find(slow))
	got := find(quick)
	require.Len(t, got, 1)
	assert.Equal(t, picture.Poor, got[0].Level)
	assert.Contains(t, got[0].Text, "key fades in 0.5 s of real time")
	assert.Contains(t, got[0].Cures.Words()[0], "a retime of 0.2 or more")
}

// A hand that dims a lamp does nothing else meanwhile; what it does before is no matter,
// nor what another hand does.
func TestOneHandForTwoThings(t *testing.T) {
	of := func(at, hand string) []picture.Verdict {
		c := made(t, 0, fmt.Sprintf(bench, ""), clockOf, there,
			"[[scene.lamps]]\nname = \"key\"\nby = \"hand\"\nhand = \"left\"\nkeys = [{ at = \"0 frames\", level = \"0 %\", hold = \"120 frames\" }, { at = \"150 frames\", level = \"85 %\", hold = \"30 frames\" }]\nbetween = \"3-4-5\"\n",
			"[[cue]]\nname = \"petal\"\nbeats = 0\nreaction = \"0 s\"\nleaves = \"nothing\"\nat = \""+at+"\"\nhand = \""+hand+"\"\n")
		var out []picture.Verdict
		for _, v := range c.Verdicts() {
			if strings.HasPrefix(v.Check, "clash of") {
				out = append(out, v)
			}
		}
		return out
	}
	got := of("135 frames", "left")
	require.Len(t, got, 1)
	assert.Equal(t, picture.Poor, got[0].Level)
	assert.Equal(t, "petal and the dimmer of key both take the left hand at once: it cannot do both", got[0].Text)
	assert.Equal(t, fault.Cures{{Words: "another hand for one of them, or another time"}}, got[0].Cures, "two hands would not tell their counts apart")
	assert.Len(t, of("150 frames", "left"), 1, "as it arrives")
	assert.Empty(t, of("151 frames", "left"))
	assert.Empty(t, of("119 frames", "left"))
	assert.Empty(t, of("135 frames", "right"))
}

// Another hand is offered by name where it does, and as the file would say it.
func TestTheOtherHandTakesOne(t *testing.T) {
	c := made(t, 0, fmt.Sprintf(bench, ""), clockOf, there,
		"[[scene.lamps]]\nname = \"key\"\nby = \"hand\"\nhand = \"left\"\nbeats = 0\nkeys = [{ at = \"0 frames\", level = \"0 %\", hold = \"120 frames\" }, { at = \"150 frames\", level = \"85 %\", hold = \"30 frames\" }]\nbetween = \"3-4-5\"\n",
		"[[cue]]\nname = \"petal\"\nbeats = 0\nreaction = \"0 s\"\nleaves = \"nothing\"\nat = \"135 frames\"\nhand = \"left\"\n")
	const check = "clash of petal and the dimmer of key"
	v := find(t, c, check)
	require.Equal(t, fault.Cures{
		{Words: "the right hand for petal", Edits: []fault.Edit{{Path: "cue[1].hand", Text: "right"}}},
		{Words: "the right hand for the dimmer of key", Edits: []fault.Edit{{Path: "scene.lamps[1].hand", Text: "right"}}},
	}, v.Cures)
	for _, x := range v.Cures {
		for _, w := range again(t, c, x.Edits[0].Path, x.Edits[0].Text).Verdicts() {
			assert.NotContains(t, w.Check, "clash of")
			assert.NotContains(t, w.Check, "counts to")
		}
	}
}
