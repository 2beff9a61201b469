package cli

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/hold"
	"seamrail/export/drive/takelog"
)

// shared is where processes that share a log find it, and what they do there.
const shared = "SEAMRAIL_TEST_LOG"

// takesEach is how many takes each process logs, in as many sessions.
const takesEach = 20

// logsTakes is one of the processes: it waits for its turn, as a person would who
// is refused, logs a take, and marks one of another's as well.
func logsTakes(shot string) error {
	for range takesEach {
		s := &session{o: &DriveOptions{Shot: ShotFlags{Shot: shot}}}
		for {
			err := s.openLog()
			if err == nil {
				break
			}
			if !strings.Contains(err.Error(), "another run logs its takes") {
				return err
			}
			time.Sleep(time.Duration(rand.IntN(3)) * time.Millisecond)
		}
		take := s.before.Next()
		err := errors.Join(
			s.log.Add(takelog.Record{Kind: takelog.Begun, Take: take, Rig: fmt.Sprint(os.Getpid())}),
			s.log.Add(takelog.Record{Kind: takelog.Ended, Take: take, Outcome: "finished"}),
			s.log.Close(),
		)
		if err != nil {
			return err
		}
		o := TakesOptions{Streams: Streams{Out: &bytes.Buffer{}}, Shot: shot, Note: "seen", Take: 1 + rand.IntN(take), Now: time.Now}
		if err := takesRun(&o); err != nil {
			return err
		}
	}
	return nil
}

// Several processes at once never give two takes one number, and no line of one is
// glued to that of another.
func TestProcessesShareALog(t *testing.T) {
	if shot := os.Getenv(shared); shot != "" {
		require.NoError(t, logsTakes(shot))
		return
	}
	shot := filepath.Join(t.TempDir(), "lantern.toml")
	probe, err := hold.Take(shot + ".probe")
	require.NoError(t, err)
	if probe.Drop(); !probe.Sure {
		t.Skip("this file system has no locks")
	}
	const processes = 5
	var wait sync.WaitGroup
	outs := make([]bytes.Buffer, processes)
	errs := make([]error, processes)
	for i := range processes {
		wait.Go(func() {
			c := exec.Command(os.Args[0], "-test.run", "^TestProcessesShareALog$")
			c.Env = append(os.Environ(), shared+"="+shot)
			c.Stdout, c.Stderr = &outs[i], &outs[i]
			errs[i] = c.Run()
		})
	}
	wait.Wait()
	for i, err := range errs {
		require.NoError(t, err, outs[i].String())
	}
	log, err := allTakes(logName(shot))
	require.NoError(t, err)
	require.Len(t, log.Takes, processes*takesEach)
	assert.Zero(t, log.Torn)
	notes, by := 0, map[string]int{}
	for i, k := range log.Takes {
		require.Equal(t, i+1, k.Number, "in order, none left out and none twice")
		require.False(t, k.Cut)
		notes += len(k.Notes)
		by[k.Begin.Rig]++
	}
	assert.Equal(t, processes*takesEach, notes)
	assert.Len(t, by, processes)
	left, err := filepath.Glob(filepath.Join(filepath.Dir(shot), ".*"))
	require.NoError(t, err)
	assert.Empty(t, left)
}

// allTakes reads a log and holds all of it.
func allTakes(name string) (log takelog.Log, err error) {
	log, _, err = openedLog(name, func(r io.ReadSeeker) (takelog.Log, error) { return takelog.Read(r) })
	return log, err
}

// loggedBy is a session that logs.
func loggedBy(t *testing.T, shot string) *session {
	t.Helper()
	s := &session{o: &DriveOptions{Shot: ShotFlags{Shot: shot}}}
	require.NoError(t, s.openLog())
	return s
}

// A second run is refused, by whatever name it calls the log; a mark is not.
func TestOneRunGivesNumbers(t *testing.T) {
	dir := t.TempDir()
	shot := filepath.Join(dir, "lantern.toml")
	first := loggedBy(t, shot)
	second := &session{o: &DriveOptions{Shot: ShotFlags{Shot: shot}}}
	if h, err := hold.Take(filepath.Join(dir, "probe")); err != nil || !h.Sure {
		t.Skip("this file system has no locks")
	}
	want := "another run logs its takes in " + logName(shot) + ", and two would give them the same numbers; end it first, or drive a copy of the shot under another name, which has a log of its own"
	assert.EqualError(t, second.openLog(), want)
	require.NoError(t, os.Symlink(logName(shot), filepath.Join(dir, "link.takes.jsonl")))
	linked := &session{o: &DriveOptions{Shot: ShotFlags{Shot: filepath.Join(dir, "link.toml")}}}
	assert.ErrorContains(t, linked.openLog(), "another run logs its takes in")
	require.NoError(t, first.log.Add(takelog.Record{Kind: takelog.Begun, Take: 1}))
	require.NoError(t, takesRun(&TakesOptions{Streams: Streams{Out: &bytes.Buffer{}}, Shot: shot, Note: "seen", Now: time.Now}))
	require.NoError(t, first.log.Close())
	require.NoError(t, second.openLog())
	assert.Equal(t, 2, second.before.Next())
	require.NoError(t, second.log.Close())
}

// A line of a run that was killed, or whose disk was full, is ended by whoever
// writes next, also if that has had the log open all the time.
func TestATornLineOfAnotherIsEnded(t *testing.T) {
	shot := filepath.Join(t.TempDir(), "lantern.toml")
	s := loggedBy(t, shot)
	require.NoError(t, s.log.Add(takelog.Record{Kind: takelog.Begun, Take: 1}))
	f, err := os.OpenFile(logName(shot), os.O_APPEND|os.O_WRONLY, 0)
	require.NoError(t, err)
	_, err = f.WriteString(`{"record":"no`)
	require.NoError(t, errors.Join(err, f.Close()))
	require.NoError(t, s.log.Add(takelog.Record{Kind: takelog.Ended, Take: 1}))
	require.NoError(t, s.log.Close())
	log, _, err := readLog(logName(shot))
	require.NoError(t, err)
	assert.Equal(t, 1, log.Torn)
	_, cut := log.LastCut()
	assert.False(t, cut)
}

// A log that is moved away while a rig is driven goes on under its name.
func TestALogThatIsMovedAwayGoesOn(t *testing.T) {
	shot := filepath.Join(t.TempDir(), "lantern.toml")
	s := loggedBy(t, shot)
	require.NoError(t, s.log.Add(takelog.Record{Kind: takelog.Begun, Take: 1}))
	require.NoError(t, os.Rename(logName(shot), logName(shot)+".old"))
	require.NoError(t, s.log.Add(takelog.Record{Kind: takelog.Begun, Take: 2}))
	log, _, err := readLog(logName(shot))
	require.NoError(t, err)
	assert.Equal(t, 1, log.Count)
	require.NoError(t, os.RemoveAll(filepath.Dir(shot)))
	assert.ErrorContains(t, s.log.Add(takelog.Record{Kind: takelog.Begun, Take: 3}), "cannot write the take log")
}

// A run that hangs while it writes does not hang others.
func TestALogThatIsHeld(t *testing.T) {
	shot := filepath.Join(t.TempDir(), "lantern.toml")
	s := loggedBy(t, shot)
	f, err := os.OpenFile(logName(shot), os.O_RDWR, 0)
	require.NoError(t, err)
	defer func() { _ = f.Close() }()
	require.NoError(t, hold.Wait(f, 0))
	if h, err := hold.Existing(logName(shot)); err == nil && !h.Sure {
		t.Skip("this file system has no locks")
	}
	err = s.log.Add(takelog.Record{Kind: takelog.Begun, Take: 1})
	assert.ErrorContains(t, err, logName(shot)+": another run holds it; end that run, or wait for it")
	require.NoError(t, s.log.Close())
}

// The log is no other file of the run.
func TestALogThatIsTheShot(t *testing.T) {
	dir := t.TempDir()
	shot := filepath.Join(dir, "lantern.toml")
	require.NoError(t, os.WriteFile(shot, []byte("input"), 0o600))
	_, err := readFile(shot)
	require.NoError(t, err)
	require.NoError(t, os.Link(shot, logName(shot)))
	s := &session{o: &DriveOptions{Shot: ShotFlags{Shot: shot}}}
	assert.ErrorContains(t, s.openLog(), "is the same file as "+shot)
	require.NoError(t, os.Remove(logName(shot)))
	require.NoError(t, os.Symlink(filepath.Join(dir, "card", "log"), logName(shot)))
	assert.Error(t, s.openLog())
	left, err := filepath.Glob(filepath.Join(dir, ".*"))
	require.NoError(t, err)
	assert.Empty(t, left)
}
