package session

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/export/drive"
	"seamrail/motion/spec/rig"
)

// onEdge is the starter's shot in the shortest loop that the rig can go through.
func onEdge() string {
	return strings.Replace(string(starter.Shot()), `loop     = "6 s"`, `loop     = "4.5 s"`, 1)
}

// known are the keys by which it becomes known where a rig stands: one that cannot home
// has been brought to the start.
func known(kind rig.ControllerKind) string {
	if kind.PlaysSteps() {
		return "p"
	}
	return "hclear\r"
}

// A place is chosen by its number or its name, and the unit that the file writes stays.
func TestPlacesAreMarkedByNumberAndName(t *testing.T) {
	shot := strings.Replace(string(starter.Shot()), `measured-at = "40 mm" `, `measured-at = "4 cm"`, 1)
	op, r, out, _ := drivenShot(t, rig.Buffered, shot,
		step{state: drive.Unsettled, keys: "hclear\r"}, step{state: drive.Ready, keys: ".." + "m2\r" + "." + "mlens\r" + "mmiddle\r" + "m\r"},
		step{state: marked, marks: 3, keys: "q"})
	require.NoError(t, r.Err(), out)
	got, err := os.ReadFile(op.o.Source.Shot)
	require.NoError(t, err)
	want := strings.NewReplacer(`to        = "100 mm"`, `to        = "0.2 mm"`, `measured-at = "4 cm"`, `measured-at = "0.03 cm"`).Replace(shot)
	assert.Equal(t, want, string(got), out)
	assert.Contains(t, out, "Mark where rail stands as\n  1  from: the near end, where it begins (40 mm now)\n  2  to: the far end, where it turns (100 mm now)\n"+
		"  3  lens: the lens is 454 mm from the table's axis (40 mm now)\n")
	assert.Contains(t, out, `axis rail has no place "middle" to mark; it has from, to, lens`)
}

// What the rig could not run is told with what would fit, and written on a yes alone.
func TestAMarkThatBreaksALimitIsAsked(t *testing.T) {
	for answer, written := range map[string]bool{"nq": false, "y": true} {
		op, r, out, _ := drivenShot(t, rig.Buffered, onEdge(),
			step{state: drive.Unsettled, keys: "hclear\r"}, step{state: drive.Ready, keys: "mfrom\r"}, step{state: marked, marks: 1, keys: answer}, step{state: marked, marks: 2, keys: "q"})
		require.NoError(t, r.Err(), out)
		assert.Contains(t, out, `With axis.rail.from = "0 mm" the rig cannot run the plan:`)
		assert.Contains(t, out, "  x axis rail: jerk ")
		assert.Contains(t, out, "  + would fit: a loop of ")
		assert.Contains(t, out, "y writes it all the same; any other key leaves the shot as it is\n")
		got, err := os.ReadFile(op.o.Source.Shot)
		require.NoError(t, err)
		assert.Equal(t, written, string(got) != onEdge(), answer)
		assert.Equal(t, written, strings.Contains(string(got), `from      = "0 mm"`), answer)
	}
}

// A frame is gone to and said, one that the loop has not is refused, and a take begins at
// its start as ever.
func TestAFrameIsShownOnTheRig(t *testing.T) {
	for _, kind := range rig.DrivenKinds() {
		t.Run(kind.String(), func(t *testing.T) {
			first := "f66\r"
			if kind.PlaysSteps() { // nothing has moved by then
				first += "clear\r"
			}
			op, r, out, log := driven(t, kind, step{state: drive.Unsettled, keys: known(kind)}, step{state: drive.Ready, keys: first},
				step{state: drive.Posing}, step{state: drive.Ready, keys: "ft36\r"}, step{state: drive.Posing}, step{state: drive.Ready, keys: "f144\rfx\rg"},
				step{state: drive.Cautioning, keys: "clear\r"}, step{state: drive.Ready, keys: "q"})
			require.NoError(t, r.Err(), out)
			assert.Empty(t, op.script, out)
			assert.Contains(t, out, "Frame 66 of the loop, 01:00:02:18: rail 100 mm, table 27.5 deg.")
			assert.Contains(t, out, "Frame 36 of the loop, 01:00:01:12: rail ")
			assert.Contains(t, out, "frame 144 is not in the loop, which has captured frames 0 to 143")
			assert.Contains(t, out, `"x" is no frame; a number is`)
			require.Len(t, log.Takes, 1)
			assert.Equal(t, "finished", log.Takes[0].End.Outcome)
		})
	}
}

// A walk goes along the plan ten times as slowly, is logged as one and is no take.
func TestThePlanIsWalkedThrough(t *testing.T) {
	for _, kind := range rig.DrivenKinds() {
		t.Run(kind.String(), func(t *testing.T) {
			op, r, out, log := driven(t, kind, step{state: drive.Unsettled, keys: known(kind)}, step{state: drive.Ready, keys: "w"},
				step{state: drive.Cautioning, keys: "clear\r"}, step{state: drive.Ready, keys: "g"},
				step{state: drive.Cautioning, keys: "clear\r"}, step{state: drive.Ready, keys: "q"})
			require.NoError(t, r.Err(), out)
			assert.Empty(t, op.script, out)
			assert.Contains(t, out, "Walking through the plan, 10 times as slowly as a take.")
			assert.Regexp(t, `Walk: finished, 1 round, 2\d\.\d+ s`, out)
			require.Len(t, log.Takes, 1, "a walk is no take")
			assert.Equal(t, 1, log.Takes[0].Number)
			assert.True(t, log.Known)
			text, err := os.ReadFile(strings.TrimSuffix(op.o.Source.Shot, ".toml") + ".takes.jsonl")
			require.NoError(t, err)
			assert.Contains(t, string(text), `"record":"walk",`)
			assert.Contains(t, string(text), `"record":"walk-end",`)
		})
	}
}

// The space bar holds a walk; it goes on, or is left for the next take.
func TestAWalkIsStopped(t *testing.T) {
	op, r, out, log := driven(t, rig.Buffered, step{state: drive.Unsettled, keys: "hclear\r"}, step{state: drive.Ready, keys: "w"},
		step{state: drive.Cautioning, keys: "clear\r"}, step{state: drive.Running, keys: " "}, step{state: drive.Resting, keys: "r"}, step{state: drive.Ready, keys: "w"},
		step{state: drive.Cautioning, keys: "no\r"}, step{state: drive.Ready, keys: "q"})
	require.NoError(t, r.Err(), out)
	assert.Empty(t, op.script, out)
	assert.Contains(t, out, "held on the way")
	assert.Empty(t, log.Takes)
	assert.True(t, log.Known)
}

// A shot that somebody else has written to since it was planned is left alone.
func TestAShotThatHasChangedOnDiskIsNotMarked(t *testing.T) {
	op, r, out, _ := driven(t, rig.Buffered, step{state: drive.Unsettled, keys: "hclear\r"}, step{state: drive.Ready, keys: "mto\r"},
		step{state: marked, marks: 1, keys: "mfrom\r", spoil: true}, step{state: marked, marks: 2, keys: "q"})
	require.NoError(t, r.Err(), out)
	assert.Contains(t, out, "the shot was changed on disk meanwhile, and nothing was written")
	got, err := os.ReadFile(op.o.Source.Shot)
	require.NoError(t, err)
	assert.Equal(t, "shot = ", string(got))
}

// What a take tells the camera with, a walk leaves alone.
func TestAWalkMakesNoSyncMark(t *testing.T) {
	shot := string(starter.Shot()) + "\n[sync-mark]\nwith = \"twitch\"\n"
	_, r, out, log := drivenShot(t, rig.Buffered, shot, step{state: drive.Unsettled, keys: "hclear\r"}, step{state: drive.Ready, keys: "w"},
		step{state: drive.Cautioning, keys: "clear\r"}, step{state: drive.Ready, keys: "g"},
		step{state: drive.Cautioning, keys: "clear\r"}, step{state: drive.Ready, keys: "q"})
	require.NoError(t, r.Err(), out)
	walk, take, ran := strings.Cut(out, "Walk: finished")
	require.True(t, ran, out)
	assert.NotContains(t, walk, "sync mark")
	assert.Contains(t, take, "sync mark")
	assert.Len(t, log.Takes, 1)
}
