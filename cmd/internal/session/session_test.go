package session

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/exit"
	"seamrail/cmd/internal/host"
	"seamrail/cmd/internal/job"
	"seamrail/cmd/internal/logbook"
	"seamrail/cmd/internal/starter"
	"seamrail/export/drive"
	"seamrail/export/drive/takelog"
	"seamrail/motion/move"
	"seamrail/motion/spec/rig"
)

// operator presses the next keys of a list each time a state is entered that
// the list is waiting for.
type operator struct {
	*session
	script []step
	marks  int
	after  map[int]step // what is done after so many marks
}

// step is keys pressed when a state is entered, or after so many marks.
type step struct {
	state drive.State
	keys  string
	marks int
	spoil bool // the shot is spoilt before
}

// These are no states: marks that have been set, and a pass in its second round.
const (
	marked  drive.State = -1
	midPass drive.State = -2
)

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

// Progress shows where the take is; a script that waits for the middle of a
// pass goes on once the second round has begun.
func (o *operator) Progress(g drive.Progress) {
	o.session.Progress(g)
	if g.Round > 0 && len(o.script) > 0 && o.script[0].state == midPass {
		o.press([]byte(o.script[0].keys))
		o.script = o.script[1:]
	}
}

// Marked shows the mark; after enough of them the operator goes on.
func (o *operator) Marked(name string, at []float64) {
	o.session.Marked(name, at)
	o.marks++
	if o.after[o.marks].spoil {
		_ = os.WriteFile(o.o.Source.Shot, []byte("shot = "), 0o600)
	}
	o.press([]byte(o.after[o.marks].keys))
}

// allTakes reads a log and holds all of it.
func allTakes(name string) (log takelog.Log, err error) {
	var takes []takelog.Take
	log, _, err = logbook.Walk(name, func(k takelog.Take) error { takes = append(takes, k); return nil })
	log.Takes = takes
	return log, err
}

// longestPause is how long of the rig's time an operator may leave it alone: far
// above any take here, and where time flies a moment.
const longestPause = 30 * time.Minute

// impatient is a world that fails the test where the script has run out and the
// run waits for ever for the next key.
type impatient struct {
	t *testing.T
	World
	out   *bytes.Buffer
	until time.Time
}

// Wait is the world's, until the longest pause is over.
func (w *impatient) Wait(until time.Time) drive.Event {
	e := w.World.Wait(until)
	if w.until.IsZero() || e.Kind == drive.Asked {
		w.until = w.Now().Add(longestPause)
	}
	if w.Now().After(w.until) {
		w.t.Fatalf("nobody has pressed a key for %v; so far:\n%s", longestPause, w.out)
	}
	return e
}

// driven runs a script of an operator on the starter's shot with a virtual rig
// whose time flies, and returns what was printed and the log.
func driven(t *testing.T, kind rig.ControllerKind, script ...step) (*operator, drive.Result, string, takelog.Log) {
	t.Helper()
	return drivenShot(t, kind, string(starter.Shot()), script...)
}

// drivenShot is driven with another shot.
func drivenShot(t *testing.T, kind rig.ControllerKind, shot string, script ...step) (*operator, drive.Result, string, takelog.Log) {
	t.Helper()
	dir := t.TempDir()
	shotFile := filepath.Join(dir, starter.ShotName)
	require.NoError(t, os.WriteFile(shotFile, []byte(shot), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, starter.RigName), starter.RigWith(kind), 0o600))
	o := &Options{Source: job.Source{Shot: shotFile}, Fast: true, CountIn: job.CountIn}
	o.Unlock = true // as if it were of metal, and in an alarm

	var out bytes.Buffer
	j, err := o.Source.Job(nil)
	require.NoError(t, err)
	s := newSession(o, j)
	s.out = &out
	require.NoError(t, s.openLog())
	source, err := s.program()
	require.NoError(t, err)
	s.Panel = s.panel(0, true)
	op := &operator{session: s, after: map[int]step{}}
	for _, x := range script {
		if x.state == marked {
			op.after[x.marks] = x
		} else {
			op.script = append(op.script, x)
		}
	}
	s.aside = func(f func()) { f() }
	opt := s.options(source)
	opt.Observer, opt.Takes, opt.Settle = op, 0, drive.AskOperator
	result := s.run(&impatient{t: t, World: host.NewFast(virtualRig(j.Rig), s.hurried, s.asks), out: &out}, opt)
	require.NoError(t, s.closeLog())
	log, err := allTakes(logbook.NameOf(shotFile))
	require.NoError(t, err)
	return op, result, out.String(), log
}

func TestTwoTakesByKeys(t *testing.T) {
	op, r, out, log := driven(t, rig.Buffered,
		step{state: drive.Unsettled, keys: "hclear\r"}, step{state: drive.Ready, keys: "\r"}, step{state: drive.Cautioning, keys: "clear\r"},
		step{state: drive.Ready, keys: "kg"}, step{state: drive.Cautioning, keys: "clear\r"}, step{state: drive.Running, keys: "f"}, step{state: drive.Ready, keys: "q"})
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
	assert.Equal(t, exit.Fine, exit.Code(op.ended(r)))
}

// Whoever practises is told what a rig of metal would wait for, where it would.
func TestHomingIsToldWhereSoftwareDoesItAlone(t *testing.T) {
	dir := t.TempDir()
	shotFile := filepath.Join(dir, starter.ShotName)
	require.NoError(t, os.WriteFile(shotFile, starter.Shot(), 0o600))
	for name, c := range map[string]struct {
		home string // of the rig file
		o    Options
		page bool
		says string
	}{
		"at keys":      {"$H", Options{Virtual: true}, false, "until it is homed: h, or --home."},
		"on the page":  {"$H", Options{Virtual: true}, true, "until it is homed: Find the switches."},
		"homed by ask": {"$H", Options{Virtual: true, Home: true}, false, ""},
		"at the start": {"$H", Options{Virtual: true, AtStart: true}, false, ""},
		"no switch":    {"none", Options{Virtual: true}, false, ""},
		"metal":        {"$H", Options{}, false, ""},
	} {
		const homes = `home-line          = "$H"`
		require.Contains(t, string(starter.Rig()), homes)
		text := strings.Replace(string(starter.Rig()), "$H", c.home, 1)
		require.NoError(t, os.WriteFile(filepath.Join(dir, starter.RigName), []byte(text), 0o600))
		c.o.Source = job.Source{Shot: shotFile}
		j, err := c.o.Source.Job(nil)
		require.NoError(t, err, name)
		s := newSession(&c.o, j)
		if c.page {
			s.called = func(drive.Beat) {}
		}
		if c.says == "" {
			assert.Empty(t, s.lastTime(), name)
		} else {
			assert.Contains(t, s.lastTime(), c.says, name)
		}
	}
}

// What a rig made of software runs is called so, logged so, and not one to keep.
func TestAVirtualTakeIsNotOneToKeep(t *testing.T) {
	dir := t.TempDir()
	shotFile := filepath.Join(dir, starter.ShotName)
	require.NoError(t, os.WriteFile(shotFile, starter.Shot(), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, starter.RigName), starter.Rig(), 0o600))
	var out bytes.Buffer
	o := &Options{Source: job.Source{Shot: shotFile}, Virtual: true, Fast: true, Confirmed: true, CountIn: job.CountIn}
	j, err := o.Source.Job(nil)
	require.NoError(t, err)
	s := newSession(o, j)
	s.out = &out
	require.NoError(t, s.openLog())
	s.Panel = s.panel(0, true)
	s.Enter(drive.Ready)
	assert.Contains(t, out.String(), "Enter runs the next take")
	assert.NotContains(t, out.String(), "k keeps")
	source, err := s.program()
	require.NoError(t, err)
	require.NoError(t, s.run(host.NewFast(virtualRig(j.Rig), s.hurried, s.asks), s.options(source)).Err())
	s.Enter(drive.Ready)
	s.press([]byte("k"))
	require.NoError(t, s.closeLog())
	assert.Contains(t, out.String(), "Virtual take 1: finished")
	assert.Contains(t, out.String(), "films nothing: there is no take to mark")
	log, err := allTakes(logbook.NameOf(shotFile))
	require.NoError(t, err)
	require.Len(t, log.Takes, 1)
	assert.True(t, log.Takes[0].Virtual())
	assert.True(t, log.Takes[0].End.Virtual)
	assert.False(t, log.Takes[0].Keep)
	assert.Equal(t, 1, log.Next(), "the slate begins at 1")
	assert.False(t, log.Known, "and where the rig of metal stands nobody knows")
}

func TestAStopThatIsResumedAndOneThatIsNot(t *testing.T) {
	op, r, out, log := driven(t, rig.Buffered,
		step{state: drive.Unsettled, keys: "hclear\r"}, step{state: drive.Ready, keys: "g"}, step{state: drive.Cautioning, keys: "clear\r"}, step{state: drive.Running, keys: " "},
		step{state: drive.Resting, keys: "r"}, step{state: drive.Ready, keys: "g"}, step{state: drive.Cautioning, keys: "clear\r"}, step{state: drive.Running, keys: " "},
		step{state: drive.Resting, keys: "q"})
	require.NoError(t, r.Err(), out)
	assert.Empty(t, op.script, out)
	require.Len(t, log.Takes, 2)
	assert.True(t, log.Takes[0].End.Held)
	assert.Equal(t, "finished", log.Takes[0].End.Outcome)
	assert.Equal(t, "stopped", log.Takes[1].End.Outcome)
	assert.Equal(t, exit.Stopped, exit.Code(op.ended(r)))
}

// A second stop while the rig still slows down aborts: position is lost, and
// said to be.
func TestASecondStopAborts(t *testing.T) {
	op, r, out, log := driven(t, rig.Buffered,
		step{state: drive.Unsettled, keys: "hclear\r"}, step{state: drive.Ready, keys: "g"},
		step{state: drive.Cautioning, keys: "clear\r"}, step{state: midPass, keys: " "},
		step{state: drive.Slowing, keys: " "}, step{state: drive.Unsettled, keys: "q"})
	assert.Empty(t, op.script, out)
	assert.NoError(t, r.Err(), out)
	assert.False(t, r.Known)
	require.Len(t, log.Takes, 1)
	assert.Equal(t, "aborted", log.Takes[0].End.Outcome, out)
	assert.Equal(t, exit.Rig, exit.Code(op.ended(r)), "where it stands is not known")
	r.Known = true // as when it has been homed since
	assert.Equal(t, exit.Stopped, exit.Code(op.ended(r)), "the take is cut short all the same")
	assert.False(t, log.Known)
}

func TestWhoDoesNotConfirmMovesNothing(t *testing.T) {
	op, r, out, log := driven(t, rig.Buffered,
		step{state: drive.Unsettled, keys: "hclear\r"}, step{state: drive.Ready, keys: "g"}, step{state: drive.Cautioning, keys: "yes\r"}, step{state: drive.Ready, keys: "q"})
	require.NoError(t, r.Err(), out)
	assert.Empty(t, op.script, out)
	assert.Empty(t, log.Takes)
	assert.Contains(t, out, "not confirmed")
}

// Jogging sets the ends of the move, and only these values of the file change.
func TestMarksGoIntoTheShot(t *testing.T) {
	op, r, out, _ := driven(t, rig.Buffered,
		step{state: drive.Unsettled, keys: "hclear\r"}, step{state: drive.Ready, keys: ".." + "s" + "." + "e" + "\t." + "e"}, step{state: marked, marks: 3, keys: "q"})
	require.NoError(t, r.Err(), out)
	assert.Empty(t, op.script, out)
	got, err := os.ReadFile(op.o.Source.Shot)
	require.NoError(t, err)
	want := strings.NewReplacer(`from      = "40 mm"`, `from      = "0.2 mm"`, `to        = "100 mm"`, `to        = "0.3 mm"`).Replace(string(starter.Shot()))
	assert.Equal(t, want, string(got), out)
	assert.Contains(t, out, `axis.rail.from = "0.2 mm" is now in `)
	assert.Contains(t, out, "axis table: its move has no end to mark; it has start")
}

// With new ends the next take is planned anew, on the same wire, from where the
// rig stands.
func TestMarksArePlannedAnew(t *testing.T) {
	op, r, out, log := driven(t, rig.Buffered,
		step{state: drive.Unsettled, keys: "hclear\r"}, step{state: drive.Ready, keys: ".." + "s"},
		step{state: marked, marks: 1, keys: "g"}, step{state: drive.Ready, keys: "g"},
		step{state: drive.Cautioning, keys: "clear\r"}, step{state: drive.Ready, keys: "q"})
	require.NoError(t, r.Err(), out)
	assert.Empty(t, op.script, out)
	assert.Contains(t, out, "Planned anew: plan ")
	require.Len(t, log.Takes, 1)
	assert.Equal(t, "finished", log.Takes[0].End.Outcome)
	assert.Equal(t, op.job.Plan.Hash(), log.Takes[0].Begin.Plan)
	assert.Equal(t, "0.2 mm", op.job.Shot.Axes[0].Does.(move.ThereAndBack).From.String())
	assert.InDelta(t, 0.2, r.At[0], 1e-9, "it is back at the new start")
	assert.Equal(t, 1, strings.Count(out, "Homing"), "it need not home again")
}

// Ends that make no move are not written.
func TestMarksThatMakeNoMove(t *testing.T) {
	op, r, out, _ := driven(t, rig.Buffered,
		step{state: drive.Unsettled, keys: "hclear\r"}, step{state: drive.Ready, keys: ".," + "s" + ".," + "e"}, step{state: marked, marks: 2, keys: "q"})
	require.NoError(t, r.Err(), out)
	assert.Empty(t, op.script, out)
	assert.Contains(t, out, "not written: ")
	assert.Contains(t, out, `to "0 mm" must be somewhere else than from`)
}

// A shot that can no longer be read is told of, and the operator is still
// there.
func TestAShotThatIsSpoiltMeanwhile(t *testing.T) {
	op, r, out, log := driven(t, rig.Buffered,
		step{state: drive.Unsettled, keys: "hclear\r"}, step{state: drive.Ready, keys: "." + "s"},
		step{state: marked, marks: 1, keys: "g", spoil: true}, step{state: drive.Ready, keys: "q"})
	require.NoError(t, r.Err(), out)
	assert.Empty(t, op.script, out)
	assert.Contains(t, out, "TOML: ")
	assert.Contains(t, out, "The shot is not one to run as it is")
	assert.Empty(t, log.Takes)
}
