package logbook

import (
	"bytes"
	"errors"
	"fmt"
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
	"seamrail/cmd/internal/textfile"
	"seamrail/export/drive/takelog"
)

// shared is where processes that share a log find it, and what they do there.
const shared = "SEAMRAIL_TEST_LOG"

// takesEach is how many takes each process logs, in as many sessions.
const takesEach = 20

// seen is how a take is marked.
var seen = []takelog.Record{{Kind: takelog.Noted, Note: "seen"}}

// logsTakes is one of the processes: it waits for its turn, as a person would who
// is refused, logs a take, and marks one of another's as well.
func logsTakes(shot string) error {
	for range takesEach {
		var before takelog.Log
		var l *Log
		for {
			var err error
			if before, l, err = Open(NameOf(shot)); err == nil {
				break
			}
			if !strings.Contains(err.Error(), "another run logs its takes") {
				return err
			}
			time.Sleep(time.Duration(rand.IntN(3)) * time.Millisecond)
		}
		take := before.Next()
		err := errors.Join(
			l.Add(takelog.Record{Kind: takelog.Begun, Take: take, Rig: fmt.Sprint(os.Getpid())}),
			l.Add(takelog.Record{Kind: takelog.Ended, Take: take, Outcome: "finished"}),
			l.Close(),
		)
		if err != nil {
			return err
		}
		if err := Mark(shot, 1+rand.IntN(take), seen, time.Now()); err != nil {
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
	log, err := allTakes(NameOf(shot))
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
	var takes []takelog.Take
	log, _, err = Walk(name, func(t takelog.Take) error { takes = append(takes, t); return nil })
	log.Takes = takes
	return log, err
}

// loggedBy is the log of a run.
func loggedBy(t *testing.T, shot string) *Log {
	t.Helper()
	_, l, err := Open(NameOf(shot))
	require.NoError(t, err)
	return l
}

// openFails is why a run cannot log.
func openFails(shot string) error {
	_, _, err := Open(NameOf(shot))
	return err
}

// A second run is refused, by whatever name it calls the log; a mark is not.
func TestOneRunGivesNumbers(t *testing.T) {
	dir := t.TempDir()
	shot := filepath.Join(dir, "lantern.toml")
	first := loggedBy(t, shot)
	if h, err := hold.Take(filepath.Join(dir, "probe")); err != nil || !h.Sure {
		t.Skip("this file system has no locks")
	}
	want := "another run logs its takes in " + NameOf(shot) + ", and two would give them the same numbers; end it first, or drive a copy of the shot under another name, which has a log of its own"
	assert.EqualError(t, openFails(shot), want)
	require.NoError(t, os.Symlink(NameOf(shot), filepath.Join(dir, "link.takes.jsonl")))
	assert.ErrorContains(t, openFails(filepath.Join(dir, "link.toml")), "another run logs its takes in")
	require.NoError(t, first.Add(takelog.Record{Kind: takelog.Begun, Take: 1}))
	require.NoError(t, Mark(shot, 0, seen, time.Now()))
	require.NoError(t, first.Close())
	before, second, err := Open(NameOf(shot))
	require.NoError(t, err)
	assert.Equal(t, 2, before.Next())
	require.NoError(t, second.Close())
}

// A line of a run that was killed, or whose disk was full, is ended by whoever
// writes next, also if that has had the log open all the time.
func TestATornLineOfAnotherIsEnded(t *testing.T) {
	shot := filepath.Join(t.TempDir(), "lantern.toml")
	l := loggedBy(t, shot)
	require.NoError(t, l.Add(takelog.Record{Kind: takelog.Begun, Take: 1}))
	f, err := os.OpenFile(NameOf(shot), os.O_APPEND|os.O_WRONLY, 0)
	require.NoError(t, err)
	_, err = f.WriteString(`{"record":"no`)
	require.NoError(t, errors.Join(err, f.Close()))
	require.NoError(t, l.Add(takelog.Record{Kind: takelog.Ended, Take: 1}))
	require.NoError(t, l.Close())
	log, _, err := Read(NameOf(shot))
	require.NoError(t, err)
	assert.Equal(t, 1, log.Torn)
	_, cut := log.LastCut()
	assert.False(t, cut)
}

// A log that is moved away while a rig is driven goes on under its name.
func TestALogThatIsMovedAwayGoesOn(t *testing.T) {
	shot := filepath.Join(t.TempDir(), "lantern.toml")
	l := loggedBy(t, shot)
	require.NoError(t, l.Add(takelog.Record{Kind: takelog.Begun, Take: 1}))
	require.NoError(t, os.Rename(NameOf(shot), NameOf(shot)+".old"))
	require.NoError(t, l.Add(takelog.Record{Kind: takelog.Begun, Take: 2}))
	log, _, err := Read(NameOf(shot))
	require.NoError(t, err)
	assert.Equal(t, 1, log.Count)
	require.NoError(t, os.RemoveAll(filepath.Dir(shot)))
	assert.ErrorContains(t, l.Add(takelog.Record{Kind: takelog.Begun, Take: 3}), "cannot write the take log")
}

// A run that hangs while it writes does not hang others.
func TestALogThatIsHeld(t *testing.T) {
	shot := filepath.Join(t.TempDir(), "lantern.toml")
	l := loggedBy(t, shot)
	f, err := os.OpenFile(NameOf(shot), os.O_RDWR, 0)
	require.NoError(t, err)
	defer func() { _ = f.Close() }()
	require.NoError(t, hold.Wait(f, 0))
	if h, err := hold.Existing(NameOf(shot)); err == nil && !h.Sure {
		t.Skip("this file system has no locks")
	}
	err = l.Add(takelog.Record{Kind: takelog.Begun, Take: 1})
	assert.ErrorContains(t, err, NameOf(shot)+": another run holds it; end that run, or wait for it")
	require.NoError(t, l.Close())
}

// The log is no other file of the run.
func TestALogThatIsTheShot(t *testing.T) {
	dir := t.TempDir()
	shot := filepath.Join(dir, "lantern.toml")
	require.NoError(t, os.WriteFile(shot, []byte("input"), 0o600))
	_, err := textfile.Read(shot)
	require.NoError(t, err)
	require.NoError(t, os.Link(shot, NameOf(shot)))
	assert.ErrorContains(t, openFails(shot), "is the same file as "+shot)
	require.NoError(t, os.Remove(NameOf(shot)))
	require.NoError(t, os.Symlink(filepath.Join(dir, "card", "log"), NameOf(shot)))
	assert.Error(t, openFails(shot))
	left, err := filepath.Glob(filepath.Join(dir, ".*"))
	require.NoError(t, err)
	assert.Empty(t, left)
}
