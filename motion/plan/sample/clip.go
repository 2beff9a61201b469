package sample

import (
	"fmt"
	"strings"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/motion/edit/sequence"
	"seamrail/motion/plan"
	"seamrail/motion/plan/trajectory"
	"seamrail/motion/spec/shot"
)

// Across is a shot of a rail that goes there and back as a cosine in 48 frames at 24 a
// second, captured at 120; Passing goes one way and is cut back. Both have a camera whose
// picture is 100 mm and 4000 px wide, 16 by 9.
const (
	Across = `shot = "Across"
[clock]
capture = "120"
playback = "24"
loop = "48 frames"
` + onRail + `from = "100 mm"
to = "140 mm"
law = "harmonic"
`
	Passing = `shot = "Passing"
[clock]
capture = "120"
playback = "24"
loop = "48 frames"
` + onRail + `move = "through"
from = "100 mm"
to = "140 mm"
`
	onRail = `[camera]
magnification = "1:5"
pitch = "5 um"
pixels-wide = 4000
[scene.axis.rail]
heading = "left"
measured-at = "120 mm"
[rig]
rig = "Bench rail"
[rig.axis.rail]
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
[axis.rail]
`
)

// Joined is a clip of a sequence and the shots that it names, by their files.
func Joined(t require.TestingT, text string, files map[string]string) *sequence.Clip {
	s, err := sequence.Decode("clip.toml", []byte(text), nil)
	require.NoError(t, err)
	var planned []sequence.Planned
	for _, e := range s.Entries {
		one, err := shot.Decode(e.File, []byte(files[e.File]), nil)
		require.NoError(t, err)
		p, err := plan.Build(one, *one.Rig)
		require.NoError(t, err)
		planned = append(planned, sequence.Planned{Shot: one, Trajectory: trajectory.New(p)})
	}
	c, err := sequence.Join(s, planned)
	require.NoError(t, err)
	return c
}

// ClipFiles are shots of clips: a loop that closes, a pass that is cut back, and the loop
// again with each captured frame shown twice.
var ClipFiles = map[string]string{
	"a.toml": Across, "b.toml": Passing,
	"half.toml": strings.Replace(Across, "[camera]", "retime = \"1/10\"\n[camera]", 1),
}

// Entry is a [[shot]] of a sequence with some lines.
func Entry(file string, lines ...string) string {
	return "[[shot]]\nfile = \"" + file + "\"\n" + strings.Join(lines, "\n") + "\n"
}

// AnyClip draws a sequence of one to four pieces of ClipFiles, some with a dissolve stated.
func AnyClip(t *rapid.T) string {
	var b strings.Builder
	for range rapid.IntRange(1, 4).Draw(t, "n") {
		lines := []string{fmt.Sprintf(`from = "%d frames"`, rapid.IntRange(0, 47).Draw(t, "from")),
			fmt.Sprintf(`length = "%d frames"`, rapid.IntRange(1, 150).Draw(t, "length"))}
		if rapid.Bool().Draw(t, "stated") {
			lines = append(lines, fmt.Sprintf(`dissolve = "%d frames"`, rapid.IntRange(0, 30).Draw(t, "dissolve")))
		}
		b.WriteString(Entry(rapid.SampledFrom([]string{"a.toml", "b.toml", "half.toml"}).Draw(t, "file"), lines...))
	}
	return b.String()
}
