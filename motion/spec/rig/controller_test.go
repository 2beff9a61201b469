package rig_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/base/fault"
	"seamrail/motion/spec/rig"
)

const plainAxis = `
[axis.rail]
letter = "X"
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
`

// every sets each key of a controller to something that no kind has.
const every = `[controller]
kind = "lockstep"
feed = "inverse-time"
path-feed = "all"
degree-as = "2.5 mm"
line-length = 96
decimals = 4
feed-decimals = 1
baud = 250000
receive-buffer = 256
step-rate = "25000 steps/s"
slowest-step-rate = "12 steps/s"
blocks = 36
segment-rate = 120
junction-deviation = "0.05 mm"
rate-error = "0.137 %"
step-timer = "20 MHz"
dwell-grain = "1 ms"
idle-delay = "25 ms"
single-precision = true
greeting = "Hello bench"
resets-on-open = false
status = "%"
hold = "{"
resume = "}"
abort = "0x9f"
home-line = "HOME ALL"
unlock-line = "FREE"
settings-line = "SHOW"
letters = "xyab"
settings = { step-pulse = "2.5 us", step-invert = 1, direction-invert = 2, enable-invert = true, soft-limits = false, hard-limits = true, homing = true, home-invert = 5 }
reports = { step-pulse = "P0", idle-delay = "P1", step-invert = "P2", direction-invert = "P3", enable-invert = "P4", junction-deviation = "M205 J", inches = "P6", soft-limits = "M211 S", hard-limits = "P8", homing = "P9", home-invert = "P10", laser = "P11" }
jog-line = "JOG"
jog-cancel = "0x86"
`

func controllerOf(t *testing.T, table string) rig.Controller {
	t.Helper()
	r, _ := decode(t, table+plainAxis)
	return r.Controller
}

func TestEveryKeyOfAController(t *testing.T) {
	assert.Equal(t, rig.Controller{
		Kind: rig.Lockstep, Feed: rig.InverseTime, PathFeed: rig.AlongAll, DegreeAs: 2.5,
		LineLength: 96, Decimals: 4, FeedDecimals: 1, Baud: 250000, ReceiveBuffer: 256,
		StepRate: 25000, SlowestStepRate: 12, Blocks: 36, SegmentRate: 120,
		JunctionDeviation: 0.05, RateError: 0.00137,
		Timer: rig.StepTimer{Hz: 20e6, Known: true}, DwellGrain: 0.001, IdleDelay: 0.025, IdleStated: true, SinglePrecision: true,
		Greeting: "Hello bench", Status: '%', Hold: '{', Resume: '}', Abort: 0x9f,
		HomeLine: "HOME ALL", UnlockLine: "FREE", SettingsLine: "SHOW", JogLine: "JOG", JogCancel: 0x86,
		Letters: "XYAB",
		Reports: rig.SettingNames{"P0", "P1", "P2", "P3", "P4", "M205 J", "P6", "M211 S", "P8", "P9", "P10", "P11"},
		Stated: [rig.SettingCount]rig.Stated{
			rig.StepPulse: {Value: 2.5, Known: true}, rig.StepInvert: {Value: 1, Known: true}, rig.DirectionInvert: {Value: 2, Known: true},
			rig.EnableInvert: {Value: 1, Known: true}, rig.SoftLimits: {Known: true}, rig.HardLimits: {Value: 1, Known: true},
			rig.Homing: {Value: 1, Known: true}, rig.HomeInvert: {Value: 5, Known: true},
		},
	}, controllerOf(t, every))
}

// What firmware.md's board was measured to do is what its kind defaults to.
func TestKindsFillInTheRest(t *testing.T) {
	buffered := controllerOf(t, "[controller]\nkind = \"buffered\"\n")
	want := rig.Buffered.Defaults()
	want.Filled = buffered.Filled
	assert.Equal(t, want, buffered)
	assert.Contains(t, buffered.Filled, "blocks")
	assert.Equal(t, 128, buffered.ReceiveBuffer)
	assert.Equal(t, 30.5, buffered.SlowestStepRate)
	assert.Equal(t, [4]byte{'?', '!', '~', 0x18}, [4]byte{buffered.Status, buffered.Hold, buffered.Resume, buffered.Abort})
	assert.True(t, buffered.Jogs())
	lockstep := controllerOf(t, "[controller]\nkind = \"lockstep\"\n")
	assert.Equal(t, rig.PerMinute, lockstep.Feed)
	assert.Equal(t, rig.AlongLinear, lockstep.PathFeed)
	assert.False(t, lockstep.Jogs())
	assert.Zero(t, [4]byte{lockstep.Status, lockstep.Hold, lockstep.Resume, lockstep.Abort})
	player := controllerOf(t, "[controller]\nkind = \"step-player\"\n")
	assert.Equal(t, rig.StepPlayer, player.Kind)
	assert.Equal(t, buffered, controllerOf(t, ""), "a rig without a controller is taken for the commonest")
}

func TestNoneTakesADefaultAway(t *testing.T) {
	c := controllerOf(t, `[controller]
step-rate = "none"
slowest-step-rate = "none"
segment-rate = "none"
status = "none"
hold = "none"
resume = "none"
abort = "none"
home-line = "none"
unlock-line = "none"
settings-line = "none"
jog-line = "none"
jog-cancel = "none"
greeting = "none"
`)
	want := rig.Buffered.Defaults()
	want.SlowestStepRate, want.Status, want.Hold, want.Resume, want.Abort = 0, 0, 0, 0, 0
	want.HomeLine, want.UnlockLine, want.SettingsLine, want.JogLine, want.JogCancel = "", "", "", "", 0
	want.Reports = rig.SettingNames{}
	c.Filled = nil
	assert.Equal(t, want, c)
}

// All that a kind filled in is told, in one line of its own.
func TestWhatTheKindFilledInIsTold(t *testing.T) {
	_, defaults := decode(t, "[controller]\nkind = \"lockstep\"\n"+plainAxis)
	var told string
	for _, d := range defaults {
		if d.Key == "controller" {
			told = d.Value
			assert.Equal(t, "as a lockstep controller has it", d.Why)
		}
	}
	for _, want := range []string{"baud 115200", "blocks 16", "abort none", "home-line G28", "junction-deviation 0.01 mm", "rate-error 0"} {
		assert.Contains(t, told, want)
	}
}

// One slip in the controller above, one fault that begins as said.
func TestControllerFaults(t *testing.T) {
	for _, c := range []struct{ old, new, want string }{
		{`"lockstep"`, `"bufered"`, `2:8: controller.kind "bufered" must be one of buffered, lockstep, step-player, two-ends; did you mean "buffered"?`},
		{`"all"`, `"both"`, `4:13: controller.path-feed "both" must be one of linear, all`},
		{`"2.5 mm"`, `"0 mm"`, `5:13: controller.degree-as "0 mm" must be above 0 and at most 1000 mm`},
		{`"2.5 mm"`, `"2.5 deg"`, `5:13: controller.degree-as "2.5 deg" is an angle`},
		{`feed-decimals = 1`, `feed-decimals = 7`, `8:17: controller.feed-decimals "7" must be from 0 to 6`},
		{`250000`, `9`, `9:8: controller.baud "9" must be from 300 to 12000000`},
		{`256`, `1.5`, `10:18: controller.receive-buffer "1.5" must be from 16 to`},
		{`"12 steps/s"`, `"25000 steps/s"`, `12:21: controller.slowest-step-rate "25000 steps/s" must be below the step-rate, 25000 steps/s`},
		{`"12 steps/s"`, `"nothing"`, `12:21: controller.slowest-step-rate "nothing"`},
		{`blocks = 36`, `blocks = 1`, `13:10: controller.blocks "1" must be from 3 to 10000`},
		{`segment-rate = 120`, `segment-rate = 0`, `14:16: controller.segment-rate "0" must be above 0 and at most 100000`},
		{`"0.05 mm"`, `"-0.05 mm"`, `15:22: controller.junction-deviation "-0.05 mm" must be from 0 to 10 mm`},
		{`"0.137 %"`, `"13.7 %"`, `16:14: controller.rate-error "13.7 %" must be from -5 % to 5 %; such as "0.07 %"`},
		{`"20 MHz"`, `"200 Hz"`, `17:14: controller.step-timer "200 Hz" must be from 1 MHz to 1000 MHz, "fine" or "unknown"`},
		{`"20 MHz"`, `"coarse"`, `17:14: controller.step-timer "coarse"`},
		{`"1 ms"`, `"2 s"`, `18:15: controller.dwell-grain "2 s" must be above 0 and at most 1 s`},
		{`"25 ms"`, `"11 s"`, `19:14: controller.idle-delay "11 s" must be from 0 to 10 s`},
		{`"25 ms"`, `"25"`, `19:14: controller.idle-delay "25" needs a unit`},
		{`single-precision = true`, `single-precision = "yes"`, `20:20: controller.single-precision "yes" must be true or false`},
		{`"Hello bench"`, `" x"`, `21:12: controller.greeting " x" must be 1 to 40 plain characters`},
		{`false`, `"no"`, `22:18: controller.resets-on-open "no" must be true or false`},
		{`"%"`, `"??"`, `23:10: controller.status "??" must be one character, a byte such as "0x18", or "none"`},
		{`"%"`, `"x"`, `23:10: controller.status "x" must not be a character of ordinary lines`},
		{`"}"`, `"{"`, `25:10: controller.resume { is the byte for hold already`},
		{`"0x9f"`, `0x9f`, `26:9: controller.abort "159" must be one character`},
		{`"0x9f"`, `"0x00"`, `26:9: controller.abort "0x00" must be one character`},
		{`"HOME ALL"`, `"{H"`, `27:13: controller.home-line "{H" must not hold the real-time byte {`},
		{`"FREE"`, `"caf\u00e9"`, `28:15: controller.unlock-line "café" must be 1 to 40 plain characters`},
		{`"SHOW"`, `""`, `29:17: controller.settings-line "" must be 1 to 40 plain characters`},
		{`"xyab"`, `"xyab "`, `30:11: controller.letters "xyab " must be some of XYZUVWABC, each once; such as "XYZ"`},
		{`"xyab"`, `"xyyb"`, `30:11: controller.letters "xyyb" must be some of`},
		{`"xyab"`, `"yab"`, `37:10: axis rail: letter "X" must be one of those the controller has, YAB; free: Y`},
		{`"2.5 us"`, `"2.5 s"`, `31:27: controller.settings.step-pulse "2.5 s" must be above 0 and at most 1 ms; such as "10 us"`},
		{`"2.5 us"`, `2.5`, `31:27: controller.settings.step-pulse "2.5" needs a unit`},
		{`step-invert = 1,`, `step-invert = 512,`, `31:51: controller.settings.step-invert "512" must be from 0 to 511`},
		{`direction-invert = 2,`, `direction-invert = -1,`, `31:73: controller.settings.direction-invert "-1" must be from 0 to 511`},
		{`enable-invert = true`, `enable-invert = 1`, `31:92: controller.settings.enable-invert "1" must be true or false`},
		{`soft-limits = false`, `soft-limits = "off"`, `31:112: controller.settings.soft-limits "off" must be true or false`},
		{`hard-limits = true`, `hard-limits = "on"`, `31:133: controller.settings.hard-limits "on" must be true or false`},
		{`homing = true`, `homing = "$H"`, `31:148: controller.settings.homing "$H" must be true or false`},
		{`home-invert = 5`, `home-invert = 0.5`, `31:168: controller.settings.home-invert "0.5" must be`},
		{`home-invert = 5`, `laser = true`, `31:154: controller.settings.laser is not a key that means anything here`},
		{`"JOG"`, `"JOG%"`, `33:12: controller.jog-line "JOG%" must not hold the real-time byte %`},
		{`"0x86"`, `"0x9f"`, `34:14: controller.jog-cancel 0x9f is the byte for abort already`},
		{`"P1"`, `""`, `32:45: controller.reports.idle-delay "" must be 1 to 40 plain characters`},
		{`laser = "P11"`, `lazer = "P11"`, `32:244: controller.reports.lazer is not a key that means anything here; did you mean "laser"?`},
		{`abort =`, `abrot =`, `26:1: controller.abrot is not a key that means anything here; did you mean "abort"?`},
	} {
		t.Run(c.new, func(t *testing.T) {
			require.Contains(t, every, c.old)
			_, _, err := rig.Decode("b", []byte(strings.Replace(every, c.old, c.new, 1)+plainAxis))
			var list fault.List
			require.ErrorAs(t, err, &list)
			require.Len(t, list, 1, err.Error())
			assert.True(t, strings.HasPrefix(err.Error(), "b:"+c.want), err.Error())
		})
	}
}

func TestALineMustFitTheBuffer(t *testing.T) {
	_, _, err := rig.Decode("b", []byte("[controller]\nreceive-buffer = 64\n"+plainAxis))
	assert.ErrorContains(t, err, `b:2:18: controller.line-length "64" must be below the receive buffer, 64 bytes`)
}

func TestSettingsOfAnAxis(t *testing.T) {
	r, _ := decode(t, plainAxis+`settings = { acceleration = "500 mm/s2", speed = "6000 mm/min" }
reports = { steps = "$7", speed = "none" }
`)
	assert.Equal(t, rig.AxisSettings{Acceleration: 500, Speed: 100, StepsName: "$7", AccelerationName: "$120", TravelName: "$130"}, r.Axes[0].Settings)
	r, _ = decode(t, strings.Replace(plainAxis, `"X"`, `"Z"`, 1))
	assert.Equal(t, rig.AxisSettings{Acceleration: 3000, Speed: 400, StepsName: "$102", SpeedName: "$112", AccelerationName: "$122", TravelName: "$132"}, r.Axes[0].Settings)
	for _, c := range []string{`letter = "U"`, `letter = "X"`} {
		r, _ = decode(t, "[controller]\nsettings-line = \"none\"\n"+strings.Replace(plainAxis, `letter = "X"`, c, 1))
		assert.Equal(t, rig.AxisSettings{Acceleration: 3000, Speed: 400}, r.Axes[0].Settings)
	}
}

func TestSettingsFaults(t *testing.T) {
	for slip, want := range map[string]string{
		`settings = { acceleration = "0 mm/s2" }`: `axis rail: settings.acceleration "0 mm/s2" must be above 0 mm/s2`,
		`settings = { speed = "4 deg/s" }`:        `axis rail: settings.speed "4 deg/s" is a turning speed`,
		`settings = { jerk = "4 mm/s3" }`:         `axis rail: settings.jerk is not a key that means anything here`,
		`reports = { steps = "a\tb" }`:            `axis rail: reports.steps "a\tb" must be 1 to 40 plain characters`,
	} {
		_, _, err := rig.Decode("b", []byte(plainAxis+slip+"\n"))
		assert.ErrorContains(t, err, want)
	}
}

// A buffered controller's names are filled in, and told; a setting that is not
// stated is not known.
func TestNamesOfTheBoardsSettings(t *testing.T) {
	r, defaults := decode(t, "[controller]\nreports = { idle-delay = \"$9\", laser = \"none\" }\nsettings = { homing = false }\n"+plainAxis)
	want := rig.Buffered.Defaults().Reports
	want[rig.IdleWait], want[rig.Laser] = "$9", ""
	assert.Equal(t, want, r.Controller.Reports)
	assert.Equal(t, rig.Stated{Known: true}, r.Controller.Stated[rig.Homing])
	assert.Equal(t, rig.Stated{}, r.Controller.Stated[rig.SoftLimits])
	assert.Contains(t, keysAndValues(defaults), "controller.reports step-pulse $0, step-invert $2, direction-invert $3, enable-invert $4, "+
		"junction-deviation $11, inches $13, soft-limits $20, hard-limits $21, homing $22, home-invert $23")
}

// How each axis is homed: by the controller's line, its own, or not at all. An
// endless one is homed by its own line alone.
func TestHomeLineOfAnAxis(t *testing.T) {
	for _, c := range []struct{ travel, line, want string }{
		{`["0 mm", "400 mm"]`, ``, "$H"},
		{`["0 mm", "400 mm"]`, `home-line = "$HX"`, "$HX"},
		{`["0 mm", "400 mm"]`, `home-line = "none"`, ""},
		{`"endless"`, ``, ""},
		{`"endless"`, `home-line = "$HA"`, "$HA"},
	} {
		unit := "mm"
		if c.travel == `"endless"` {
			unit = "deg"
		}
		r, defaults := decode(t, one(c.travel, `"5 `+unit+`/s"`, `steps = "80 per `+unit+`"`)+c.line+"\n")
		assert.Equal(t, c.want, r.Controller.HomeLineOf(r.Axes[0]), c)
		told := strings.Contains(strings.Join(keysAndValues(defaults), "\n"), "axis.a.home-line none")
		assert.Equal(t, unit == "deg" && c.line == "", told, c)
	}
	_, _, err := rig.Decode("b", []byte(plainAxis+"home-line = \" \"\n"))
	assert.ErrorContains(t, err, `axis rail: home-line " " must be 1 to 40 plain characters without spaces at the ends; or "none"`)
	_, _, err = rig.Decode("b", []byte(plainAxis+"home-line = \"$HX?\"\n"))
	assert.ErrorContains(t, err, `b:8:13: axis rail: home-line "$HX?" must not hold the real-time byte ?`)
}

// Where the letters are stated, no axis gets another; a table on a board
// without a rotary letter gets one of the others.
func TestLettersOfTheController(t *testing.T) {
	table := one(`"endless"`, `"5 deg/s"`, `steps = "1 per deg"`)
	rail := strings.ReplaceAll(one(`["0 mm", "10 mm"]`, `"5 mm/s"`, `steps = "1 per mm"`), "axis.a", "axis.b")
	for letters, want := range map[string]string{"": "AX", "XYZ": "XY", "xza": "AX"} {
		head := ""
		if letters != "" {
			head = "[controller]\nletters = \"" + letters + "\"\n"
		}
		r, _ := decode(t, head+table+rail)
		assert.Equal(t, want, r.Axes[0].Letter+r.Axes[1].Letter, letters)
		assert.Equal(t, letters == "", r.Controller.DoubtfulLetter(r.Axes[0]), letters)
		assert.False(t, r.Controller.DoubtfulLetter(r.Axes[1]), letters)
	}
	_, _, err := rig.Decode("b", []byte("[controller]\nletters = \"A\"\n"+table+rail))
	assert.ErrorContains(t, err, "axis b: letter has none left to take; the controller has A alone")
	r, _ := decode(t, "[controller]\nkind = \"lockstep\"\n"+table)
	assert.False(t, r.Controller.DoubtfulLetter(r.Axes[0]), "those often have more")
}

// Motors that lose their current without a delay are not those that keep it.
func TestIdleAtOnce(t *testing.T) {
	for text, want := range map[string]bool{"0 ms": true, "none": false, "25 ms": false} {
		r, _ := decode(t, "[controller]\nidle-delay = \""+text+"\"\n"+plainAxis)
		require.Equal(t, want, r.Controller.IdleAtOnce, text)
		require.True(t, r.Controller.IdleStated)
	}
}
