package cli_test

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/cmd/internal/starter"
)

// misprint is a fault that can be put into a table of the demo: what stands there,
// what takes its place and what is said of it.
type misprint struct{ table, old, new, want string }

// shotPlants and rigPlants are faults of which none hides another, in whatever
// company.
var shotPlants = []misprint{
	{"", `shot = "`, `shto = "`, "shto is not a key"},
	{"clock", `"119.88"`, `"swift"`, `clock.capture frame rate: "swift" is not a number`},
	{"clock", `loop     = "6 s"`, `loop     = "6 kg"`, `clock.loop "6 kg" is a mass`},
	{"clock", `capture  =`, "pace = \"slow\"\ncapture  =", `clock.pace "slow" must be one of`},
	{"take", "rounds   = 3", "rounds   = 0", `take.rounds "0" must be from 1`},
	{"take", `"01:00:00:00"`, `"soon"`, "take.timecode"},
	{"axis.rail", `"100 mm"`, `"100 kg"`, `axis rail: to "100 kg" is a mass`},
	{"axis.rail", `"3-4-5" `, `"3-4-6" `, "axis rail: law"},
	{"axis.rail", `"12 frames"`, `"-12 frames"`, `axis rail: dwell-far "-12 frames" must be 0 or more`},
	{"axis.table", `"1/6" `, `"some" `, `axis table: turns "some"`},
	{"axis.table", `symmetry = 6`, `symmetry = 1.5`, `axis table: symmetry`},
	{"axis.crane", "[axis.table]\nmove", "[axis.crane]\nmove = \"hold\"\nat = \"3 mm\"\n[axis.table]\nmove", "axis crane: is not on the rig"},
	{"camera", `"f/18" `, `"f/0" `, "camera.aperture 0 must be from"},
	{"camera", `"1/250 s"`, `nan`, `camera.shutter "nan"`},
	{"camera", `iso             = 2500`, `iso = inf`, `camera.iso "inf"`},
	{"scene", `"454 mm"`, `"454 deg"`, `scene.distance "454 deg" is an angle`},
	{"scene.axis.rail", `"push-in"`, `"onwards"`, `axis rail: heading "onwards" must be one of`},
	{"scene.axis.boom", "[scene.axis.table]", "[scene.axis.boom]\nrole = \"none\"\n[scene.axis.table]", "scene.axis.boom is no axis of this shot"},
	{"scene.product", "sides  = 6", "sides  = 1", "scene.product.sides 1 must be from 3"},
	{"scene.lamps", `"3900 lm"`, `"4500 W"`, `scene.lamps[1].lumens "4500 W"`},
	{"scene.lamps.2", `"90 deg"`, `"900 deg"`, "scene.lamps[2].beam"},
	{"cue", `at     = "turnaround"`, `at     = "sometime"`, `cue[1].at "sometime"`},
	{"cue", `axis   = "rail"`, `axis   = "real"`, `cue[1].axis "real" is none of the shot`},
	{"cue", `beats  = 3`, `beats  = 99`, `cue[1].beats "99" must be from 0 to 16`},
	{"spin.display", `speed         = "slow"`, `speed         = "idle"`, `spin.display.speed "idle" is not a speed`},
	{"spin.display", `"0.5 px"`, `"0.5 kg"`, `spin.display.within "0.5 kg"`},
	{"spin.other", "# the end", "[spin.other]", "spin.other is no stand of the rig"},
}

var rigPlants = []misprint{
	{"rig", `cautions = [`, `caution = [`, "caution is not a key"},
	{"rig.controller", `kind               = "buffered"`, `kind = "buffred"`, `controller.kind "buffred" must be one of`},
	{"rig.controller", `"16 MHz" `, `"16 mm" `, "controller.step-timer"},
	{"rig.axis.rail", `speed        = "400 mm/s"`, `speed        = "400 mm"`, `axis rail: speed "400 mm" is a length`},
	{"rig.axis.rail", `["0 mm", "400 mm"]`, `["400 mm", "0 mm"]`, `axis rail: travel "0 mm" must be above`},
	{"rig.axis.rail", `"60000 mm/s3" `, `"NaN mm/s3" `, `axis rail: jerk "NaN mm/s3"`},
	{"rig.axis.table", `"36:1"`, `"36:0"`, "axis table: gear"},
	{"rig.axis.table", `"0.05 deg"`, `"0.05 kg"`, `axis table: backlash "0.05 kg"`},
	{"rig.stand.display", `drift          = "1 %"`, `drift          = "40 %"`, `stand.display.drift "40 %" must be from`},
	{"rig.stand.display.speed.slow", `"20 turns in 412.3 s"`, `"20 turns in no s"`, "stand.display.speed.slow.measured[1]"},
}

// bare takes the marks off the tables that the demo has for display stands.
func bare(text []byte, table string) string {
	head, tail, _ := strings.Cut(string(text), "# ["+table)
	tail = strings.ReplaceAll("\n# ["+table+tail, "\n# ", "\n")
	return head + strings.ReplaceAll(tail, "\n#", "\n")
}

// However many faults are planted, each in a table of its own, all are told in
// one report, in the order of the files, and no other with them.
func TestAllFaultsAtOnce(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	shot, rig := bare(starter.Shot(), "spin.display"), bare(starter.Rig(), "stand.display")
	shot = strings.Replace(shot, `symmetry, radius, pixels-per-mm.`, "", 1)
	shot = strings.Replace(shot, "[scene.product]\n", "[scene.product]\non = \"display\"\n", 1)
	shot += "\n# the end\n"
	put := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644))
	}
	put("lantern.toml", shot)
	put(starter.RigName, rig)
	tables := map[string][]misprint{}
	for _, p := range slices.Concat(shotPlants, rigPlants) {
		if p.want == "" { // TOML itself: nothing else of that file can be told
			continue
		}
		tables[p.table] = append(tables[p.table], p)
	}
	var names []string
	for name := range tables {
		names = append(names, name)
	}
	slices.Sort(names)
	rapid.Check(t, func(r *rapid.T) {
		where := rapid.SliceOfNDistinct(rapid.SampledFrom(names), 1, len(names), rapid.ID[string]).Draw(r, "tables")
		s, g := shot, rig
		var want []string
		for _, table := range where {
			p := rapid.SampledFrom(tables[table]).Draw(r, table)
			file := &s
			if strings.HasPrefix(table, "rig") {
				file = &g
			}
			require.Contains(r, *file, p.old, table)
			*file = strings.Replace(*file, p.old, p.new, 1)
			want = append(want, p.want)
		}
		put("lantern.toml", s)
		put(starter.RigName, g)
		said := refused(t, "plan", "lantern.toml")
		for _, w := range want {
			assert.Contains(r, said, w)
		}
		assert.Len(r, strings.Split(strings.TrimSpace(said), "\n"), len(want), said)
		if r.Failed() {
			r.Fatalf("%s", said)
		}
	})
}
