package shot_test

import (
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
	"github.com/stretchr/testify/require"
)

// base is a sound shot to spoil.
const base = `shot = "Lantern"
[clock]
capture = "120"
playback = "24"
loop = "144 frames"
[rig]
file = "bench.toml"
[axis.rail]
move = "there-and-back"
from = "40 mm"
to = "100 mm"
`

// head is base without its axis.
var head, _, _ = strings.Cut(base, "[axis.rail]")

const inlineRig = `shot = "Lantern"
[clock]
playback = 24
loop = "2 s"
[rig]
rig = "Bench"
[rig.axis.rail]
travel = ["0 mm", "400 mm"]
speed = "400 mm/s"
acceleration = "3000 mm/s2"
steps = "80 per mm"
[axis.rail]
at = "40 mm"
`

// sound is one shot of every kind.
var sound = map[string]string{
	"there and back": base,
	"everything": base + `law = "seven-segment"
back-law = "trapezoidal"
ramp = "1/4"
jerk-share = "1/2"
cycles = 2
out-share = "0.4"
dwell-far = "12 frames"
dwell-near = "0.25 s"
phase = "1/4"
[take]
rounds = 5
handles = "0.5 s"
timecode = "01:00:00:12"
drop-frame = false
`,
	"turn":    head + "[axis.table]\nmove = \"turn\"\nturns = \"-1/6\"\nlaw = \"uniform\"\nstart = \"1/4 turn\"\n",
	"hold":    head + "[axis.focus]\nmove = \"hold\"\nat = \"12 deg\"\n",
	"inline":  inlineRig,
	"stand":   spinning,
	"scene":   seenAll,
	"through": head + "[axis.rail]\nmove = \"through\"\nfrom = \"40 mm\"\nto = \"280 mm\"\nlaw = \"3-4-5\"\neven = \"1/2\"\n",
	"aims": head + `[axis.rail]
move = "arc"
point = ["160 mm", "400 mm", "-30 mm"]
from = "-20 deg"
to = "20 deg"
law = "cycloidal"
[axis.pan]
move = "aim"
follow = "rail"
as = "pan"
point = ["160 mm", "400 mm"]
[axis.focus]
move = "aim"
follow = "rail"
as = "focus"
point = ["160 mm", "400 mm"]
focal = "60 mm"
marks = [{ distance = "300 mm", pos = "80 deg" }, { distance = "500 mm", pos = "35 deg" }]
`,
	"feeling": strings.Replace(head, "loop =", "pace = \"quickest\"\nloop =", 1) + `[axis.pan]
move = "keys"
keys = [
  { at = "0 frames", pos = "10 deg", ease-out = "1/3" },
  { at = "2 s", pos = "25 deg", ease-in = "1/4" },
  { at = "3 s", pos = "15 deg", tension = "1/2" },
  { at = "4 s", pos = "12 deg", within = "2 deg" },
]
`,
	"keys": head + `[axis.pan]
move = "keys"
curve = "smooth"
advance = "0 turn"
keys = [
  { at = "0 frames", pos = "10 deg", hold = "6 frames" },
  { at = "3 s", pos = "25 deg", speed = "2 deg/s" },
]
`,
}

func read(t *testing.T, doc string) map[string]any {
	var v map[string]any
	require.NoError(t, toml.Unmarshal([]byte(doc), &v))
	return v
}

// spoilt returns base with one piece replaced.
func spoilt(t *testing.T, old, new string) []byte {
	require.Contains(t, base, old)
	return []byte(strings.Replace(base, old, new, 1))
}
