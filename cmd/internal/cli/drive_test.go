package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/host"
	"seamrail/cmd/internal/starter"
	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/motion/rig"
)

// operator presses the next keys of a list each time a state is entered that
// the list is waiting for.
type operator struct {
	*session
	script []step
	marks  int
}

// step is keys pressed when a state is entered.
type step struct {
	state drive.State
	keys  string
}

// Enter shows the state, then presses what is due.
func (o *operator) Enter(s drive.State) {
	o.session.Enter(s)
	for len(o.script) > 0 && o.script[0].state == s {
		keys := o.script[0].keys
		o.script = o.script[1:]
		o.press([]byte(keys))
		if keys != "" {
			return
		}
	}
}

// Marked shows the mark; after the third the operator leaves.
func (o *operator) Marked(name string, at []float64) {
	o.session.Marked(name, at)
	if o.marks++; o.marks == 3 {
		o.press([]byte("q"))
	}
}

// driven runs a script of an operator on the starter's shot with a virtual rig
// whose time flies, and returns what was printed and the log.
func driven(t *testing.T, kind rig.ControllerKind, script ...step) (*operator, drive.Result, string, takelog.Log) {
	t.Helper()
	dir := t.TempDir()
	shotFile := filepath.Join(dir, starter.ShotName)
	require.NoError(t, os.WriteFile(shotFile, starter.Shot(), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, starter.RigName), starter.RigWith(kind), 0o600))
	o := &DriveOptions{CountIn: 1}
	c := NewCmdDrive(Streams{}, func(got *DriveOptions) error { o = got; return nil })
	c.SetArgs([]string{shotFile, "--virtual", "--fast", "--confirmed"})
	require.NoError(t, c.Execute())
	o.Confirmed = false

	var out bytes.Buffer
	j, err := o.Shot.prepare(nil)
	require.NoError(t, err)
	s := newSession(o, j)
	s.out = &out
	require.NoError(t, s.openLog())
	source, err := s.program()
	require.NoError(t, err)
	s.Panel = s.panel(0, true)
	op := &operator{session: s, script: script}
	opt := s.options(source)
	opt.Observer, opt.Takes, opt.Settle = op, 0, drive.AskOperator
	result := drive.Run(host.NewFast(virtualRig(j.rig), s.hurried, s.asks), opt)
	require.NoError(t, s.log.Close())
	log, _, err := readLog(logName(shotFile))
	require.NoError(t, err)
	return op, result, out.String(), log
}

func TestTwoTakesByKeys(t *testing.T) {
	op, r, out, log := driven(t, rig.Buffered,
		step{drive.Unsettled, "h"}, step{drive.Ready, "\r"}, step{drive.Cautioning, "clear\r"},
		step{drive.Ready, "kg"}, step{drive.Cautioning, "clear\r"}, step{drive.Running, "f"}, step{drive.Ready, "q"})
	require.NoError(t, r.Err(), out)
	assert.Empty(t, op.script, out)
	assert.Equal(t, drive.Quitted, r.End)
	assert.True(t, r.Known)
	require.Len(t, log.Takes, 2)
	assert.True(t, log.Takes[0].Keep)
	assert.Equal(t, int64(3), log.Takes[0].End.Rounds)
	assert.Equal(t, int64(1), log.Takes[1].End.Rounds, "f ends after the round in hand")
	assert.Contains(t, out, "Take 1: finished, 3 rounds")
	assert.Contains(t, out, "take 1 is one to keep")
}

func TestAStopThatIsResumedAndOneThatIsNot(t *testing.T) {
	op, r, out, log := driven(t, rig.Buffered,
		step{drive.Unsettled, "h"}, step{drive.Ready, "g"}, step{drive.Cautioning, "clear\r"}, step{drive.Running, " "},
		step{drive.Resting, "r"}, step{drive.Ready, "g"}, step{drive.Cautioning, "clear\r"}, step{drive.Running, " "},
		step{drive.Resting, "q"})
	require.NoError(t, r.Err(), out)
	assert.Empty(t, op.script, out)
	require.Len(t, log.Takes, 2)
	assert.True(t, log.Takes[0].End.Held)
	assert.Equal(t, "finished", log.Takes[0].End.Outcome)
	assert.Equal(t, "stopped", log.Takes[1].End.Outcome)
}

func TestWhoDoesNotConfirmMovesNothing(t *testing.T) {
	op, r, out, log := driven(t, rig.Buffered,
		step{drive.Unsettled, "h"}, step{drive.Ready, "g"}, step{drive.Cautioning, "yes\r"}, step{drive.Ready, "q"})
	require.NoError(t, r.Err(), out)
	assert.Empty(t, op.script, out)
	assert.Empty(t, log.Takes)
	assert.Contains(t, out, "not confirmed")
}

// Jogging sets the ends of the move, and only these values of the file change.
func TestMarksGoIntoTheShot(t *testing.T) {
	op, r, out, _ := driven(t, rig.Buffered,
		step{drive.Unsettled, "h"}, step{drive.Ready, "\x1b[A\x1b[C\x1b[C" + "s" + "\x1b[A" + "e" + "\t" + "e"})
	require.NoError(t, r.Err(), out)
	assert.Empty(t, op.script, out)
	got, err := os.ReadFile(op.o.Shot.Shot)
	require.NoError(t, err)
	want := strings.NewReplacer(`"40 mm"`, `"5.2 mm"`, `"100 mm"`, `"10.2 mm"`).Replace(string(starter.Shot()))
	assert.Equal(t, want, string(got), out)
	assert.Contains(t, out, `axis rail: from = "5.2 mm" is now in `)
	assert.Contains(t, out, "axis table: a turn has no end to set")
}
