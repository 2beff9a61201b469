package setup_test

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/plan"
	"seamrail/motion/plan/sample"
	"seamrail/motion/scene"
	"seamrail/motion/spec/rig"
	"seamrail/motion/spec/shot"
)

// value is one line of a file, under the header of a table or of a lamp.
type value struct{ header, line string }

// shared are values that may stand in a shot or in a set-up, each of which says what no
// other says.
var shared = []value{
	{"[clock]", `capture = "119.88"`}, {"[clock]", `playback = "23.976"`}, {"[clock]", `retime = "1/5"`},
	{"[take]", `rounds = 5`}, {"[take]", `handles = "6 frames"`}, {"[rig]", `file = "bench.toml"`},
	{"[camera]", `sensor-width = "36 mm"`}, {"[camera]", `pixels-wide = 1920`}, {"[camera]", `pixels-high = 1080`},
	{"[camera]", `shutter = "1/250 s"`}, {"[camera]", `iso = 2500`}, {"[camera]", `focal-length = "50 mm"`},
	{"[camera]", `focus = "380 mm"`}, {"[camera]", `aperture = "f/11"`}, {"[camera]", `apertures = ["f/2", "f/22"]`},
	{"[scene]", `distance = "454 mm"`}, {"[scene]", `mains = "50 Hz"`}, {"[scene.product]", `shape = "prism"`},
	{"[scene.product]", `sides = 6`}, {"[scene.product]", `radius = "45 mm"`}, {"[scene.product]", `height = "120 mm"`},
	{"[scene.axis.rail]", `heading = "push-in"`}, {"[scene.axis.rail]", `measured-at = "40 mm"`}, {"[scene.axis.table]", `role = "table"`},
	{"key", `lumens = "3900 lm"`}, {"key", `beam = "60 deg"`}, {"key", `distance = "500 mm"`}, {"key", `level = "85 %"`},
	{"fill", `lumens = "1200 lm"`}, {"fill", `beam = "90 deg"`}, {"fill", `distance = "700 mm"`}, {"fill", `bearing = "-50 deg"`},
	{"[scene.dark]", `centre = ["0 mm", "-300 mm", "60 mm"]`}, {"[scene.dark]", `width = "80 mm"`}, {"[picture]", `soft-smear = 6`},
}

// written are values as a file, in the order of their tables.
func written(values []value, head string) string {
	tables := map[string][]string{}
	var order []string
	for _, v := range values {
		if tables[v.header] == nil {
			order = append(order, v.header)
		}
		tables[v.header] = append(tables[v.header], v.line)
	}
	var b strings.Builder
	b.WriteString(head)
	for _, header := range order {
		if strings.HasPrefix(header, "[") {
			fmt.Fprintf(&b, "%s\n", header)
		} else {
			fmt.Fprintf(&b, "[[scene.lamps]]\nname = %q\n", header)
		}
		b.WriteString(strings.Join(tables[header], "\n") + "\n")
	}
	return b.String()
}

// own is what stands in the shot and nowhere else.
var own = []value{
	{"[clock]", `loop = "144 frames"`}, {"[axis.rail]", `from = "40 mm"`}, {"[axis.rail]", `to = "100 mm"`},
	{"[axis.table]", `turns = "1/6"`}, {"[axis.table]", `symmetry = 6`},
}

// hash is the plan of a shot on a rig that is always the same.
func hash(t require.TestingT, s shot.Shot) string {
	p, err := plan.Build(s, bench)
	require.NoError(t, err)
	return p.Hash()
}

var bench = func() rig.Rig {
	r := sample.Bench(rig.InverseTime)
	return r
}()

// seen is what is seen of a scene, lamps by their names: which comes first is nothing to see.
func seen(s scene.Scene) scene.Scene {
	s.Lamps = slices.Clone(s.Lamps)
	slices.SortFunc(s.Lamps, func(a, b scene.Lamp) int { return strings.Compare(a.Name, b.Name) })
	return s
}

// However the values of a shot are dealt out to it and to set-ups under it, it is the
// same shot.
func TestSplitAnyhow(t *testing.T) {
	whole, err := shot.Decode("a.toml", []byte(written(append(slices.Clone(own), shared...), "")), nil)
	require.NoError(t, err)
	want := hash(t, whole)
	rapid.Check(t, func(t *rapid.T) {
		const places = 3 // the shot, and two set-ups
		var parts [places][]value
		parts[0] = slices.Clone(own)
		for i, v := range shared {
			at := rapid.IntRange(0, places-1).Draw(t, fmt.Sprint(i))
			parts[at] = append(parts[at], v)
		}
		names := `setup = ["one.toml", "two.toml"]`
		if rapid.Bool().Draw(t, "in a chain") {
			names = `setup = "two.toml"`
		}
		f := folder{"a.toml": written(parts[0], names+"\n"), "one.toml": written(parts[1], "set-up = \"1\"\n"), "two.toml": written(parts[2], "set-up = \"2\"\n")}
		if !strings.Contains(names, "one") {
			f["two.toml"] = "setup = \"one.toml\"\n" + f["two.toml"]
		}
		s, err := f.decode("a.toml")
		require.NoError(t, err)
		assert.Equal(t, want, hash(t, s))
		assert.Equal(t, seen(*whole.Scene), seen(*s.Scene))
		assert.Equal(t, []any{whole.Rounds, whole.Handles, whole.RigFile}, []any{s.Rounds, s.Handles, s.RigFile})
		standsElsewhere := 0
		for _, v := range s.Laid.Values {
			if v.Text.File == "one.toml" || v.Text.File == "two.toml" {
				standsElsewhere++
			}
		}
		assert.GreaterOrEqual(t, standsElsewhere, len(parts[1])+len(parts[2]), "each says where it stands")
	})
}

// other is a value of the same key that is another one, and sound.
var other = strings.NewReplacer(`"36 mm"`, `"24 mm"`, "1920", "3840", "1080", "2160", "2500", "100", `"50 mm"`, `"85 mm"`, `"380 mm"`, `"500 mm"`,
	`"f/11"`, `"f/4"`, `"454 mm"`, `"900 mm"`, `"45 mm"`, `"30 mm"`, `"119.88"`, `"59.94"`, `"1/5"`, `"1/2"`, "rounds = 5", "rounds = 9", `"85 %"`, `"10 %"`)

// A shot that says everything is what it is by itself, whatever lies under it.
func TestAShotThatSaysAllIsAlone(t *testing.T) {
	all := written(append(slices.Clone(own), shared...), "")
	whole, err := shot.Decode("a.toml", []byte(all), nil)
	require.NoError(t, err)
	want := hash(t, whole)
	rapid.Check(t, func(t *rapid.T) {
		under := rapid.SliceOfDistinct(rapid.SampledFrom(shared), func(v value) value { return v }).Draw(t, "under")
		for i := range under {
			if rapid.Bool().Draw(t, "another") {
				under[i].line = other.Replace(under[i].line)
			}
		}
		f := folder{"a.toml": "setup = \"t.toml\"\n" + all, "t.toml": written(under, "set-up = \"t\"\n")}
		s, err := f.decode("a.toml")
		require.NoError(t, err)
		assert.Equal(t, want, hash(t, s))
		assert.Equal(t, seen(*whole.Scene), seen(*s.Scene))
		for _, v := range s.Laid.Values {
			assert.Empty(t, v.Text.File, "nothing of it counts")
		}
	})
}

// Nothing that is written makes it panic, and a fault is in a file that there is.
func FuzzLaid(f *testing.F) {
	for _, x := range []folder{shotOn(""), shotOn("[camera]\nwithout = true\n"), shotOn("[[scene.lamps]]\nname = \"key\"\nwithout = [\"use\"]\n")} {
		f.Add(x["a.toml"], x["table.toml"], x["shelf/panel.toml"])
	}
	f.Add("setup = 3\n", "set-up = 3\nsetup = [1, {}]", "lamp = []")
	f.Add("setup = [\"table.toml\", \"a.toml\"]\nscene = 3", "scene.lamps = [3, {name = 4}]\nset-up = \"\"", "[lamp]")
	f.Add("setup = \"table.toml\"\n[scene]\nlamps = [{name=\"key\"}, {without=true}, {use=\"shelf/panel.toml\"}]\nwithout=[\"lamps\", 3]", "[[scene.lamps]]\nname=1979-05-27\nwithout=\"name\"", "")
	f.Fuzz(func(t *testing.T, a, table, panel string) {
		x := shotOn("")
		x["a.toml"], x["table.toml"], x["shelf/panel.toml"] = a, table, panel
		s, faults := x.files().Understand("a.toml", []byte(a), nil)
		for _, fault := range faults {
			require.Contains(t, x, fault.File, fault.String())
			lines := strings.Count(x[fault.File], "\n") + 1
			require.LessOrEqual(t, fault.Line, lines, fault.String())
		}
		if len(faults) > 0 {
			return
		}
		for _, v := range s.Laid.Values {
			require.Contains(t, x, cmp.Or(v.Text.File, "a.toml"))
			for _, below := range v.Below {
				require.Contains(t, x, below.File)
			}
		}
		again, err := s.Changed()
		require.NoError(t, err)
		require.Equal(t, s.Axes, again.Axes)
	})
}

// A shot of the usual size over a set-up and four files of a shelf, read and understood.
func BenchmarkUnderstand(b *testing.B) {
	f := shotOn("[[scene.lamps]]\nname = \"key\"\nlevel = \"50 %\"\n")
	files, data := f.files(), []byte(f["a.toml"])
	for b.Loop() {
		if _, faults := files.Understand("a.toml", data, nil); len(faults) > 0 {
			b.Fatal(faults)
		}
	}
}
