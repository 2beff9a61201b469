package mutants_test

import (
	"bytes"
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"
)

// room is a package whose arithmetic its own tests have to hold.
type room struct {
	folder string   // from the root of its module
	files  []string // those that are changed; all of them where none is named
	args   []string // beside those that every room's tests are run with
	slow   string   // tests that only what the others leave alive is shown to
	never  string   // tests that are not run, with the reason beside
}

// fate is what became of a mutant.
type fate int

const (
	killed fate = iota
	survived
	stillborn // did not compile
	same      // is known to do the same
)

var fates = [...]string{"killed", "survived", "not compiled", "equivalent"}

// How long the tests of a mutant may run before it counts as killed: an endless loop
// hurts as well. It is time of the processor, in s, so that a busy computer kills none:
// some times as much as they take as they are, and more for those that are slow. What
// sleeps for ever is ended after lastTime.
const (
	quickSeconds = 10
	slowSeconds  = 150
	lastTime     = 10 * time.Minute
)

// trialMemory bounds what a mutant may take, in bytes, for one that gathers for ever.
const trialMemory int64 = 6 << 30

// sitesOf lists the sites of a room below root, in the order of files and lines.
func (r room) sitesOf(root string) ([]site, error) {
	names, err := filepath.Glob(filepath.Join(root, r.folder, "*.go"))
	if err != nil {
		return nil, err
	}
	var out []site
	for _, name := range names {
		base := filepath.Base(name)
		if strings.HasSuffix(base, "_test.go") || len(r.files) > 0 && !slices.Contains(r.files, base) {
			continue
		}
		src, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		found, err := sites(filepath.Join(r.folder, base), src)
		if err != nil {
			return nil, err
		}
		out = append(out, found...)
	}
	return out, nil
}

// tally counts fates.
type tally struct {
	count [len(fates)]int
	alive []site
}

// share is how many of the mutants that could be killed were, of 1.
func (t tally) share() float64 {
	return float64(t.count[killed]) / float64(max(1, t.count[killed]+t.count[survived]))
}

func (t tally) String() string {
	return fmt.Sprintf("%d killed, %d survived (%.1f %%), %d equivalent, %d not compiled", t.count[killed],
		t.count[survived], 100*t.share(), t.count[same], t.count[stillborn])
}

// atOnce is how many mutants are tried before what became of them is told.
const atOnce = 10

// lot is where a seed puts a change among others: by what it is, not by where it stands
// in its file, so that a line that is added somewhere does not pick all others anew.
func (s site) lot(seed int64) string {
	sum := sha256.Sum256(fmt.Appendf(nil, "%d %q %q %d %q", seed, s.file, s.text, s.column, s.with))
	return string(sum[:])
}

// sample tries mutants of a room in the order of a seed until so many of them could be
// killed, side by side. What a seed picks stays the same wherever the lines do.
func (r room) sample(root string, seed int64, want, workers int, told func(site, fate)) (tally, error) {
	list, err := r.sitesOf(root)
	if err != nil {
		return tally{}, err
	}
	// What fails without a change says nothing of one.
	if f, err := r.try(root, site{file: list[0].file}); err != nil || f != survived {
		return tally{}, fmt.Errorf("%s: its tests must pass as it is, and are %s: %w", r.folder, fates[f], err)
	}
	slices.SortFunc(list, func(a, b site) int { return cmp.Compare(a.lot(seed), b.lot(seed)) })
	var t tally
	for len(list) > 0 && t.count[killed]+t.count[survived] < want {
		now := list[:min(len(list), want-t.count[killed]-t.count[survived], atOnce)]
		list = list[len(now):]
		all, err := r.tryAll(root, now, workers)
		if err != nil {
			return t, err
		}
		for i, f := range all {
			t.count[f]++
			told(now[i], f)
			if f == survived {
				t.alive = append(t.alive, now[i])
			}
		}
	}
	return t, nil
}

// tryAll tries mutants side by side.
func (r room) tryAll(root string, list []site, workers int) ([]fate, error) {
	out, failed := make([]fate, len(list)), make([]error, len(list))
	next := make(chan int)
	var at sync.WaitGroup
	for range workers {
		at.Add(1)
		go func() {
			defer at.Done()
			for i := range next {
				out[i], failed[i] = r.try(root, list[i])
			}
		}()
	}
	for i := range list {
		next <- i
	}
	close(next)
	at.Wait()
	return out, errors.Join(failed...)
}

// try builds the tests of a room with one change laid over the tree, in which no file
// is touched, and runs them.
func (r room) try(root string, s site) (fate, error) {
	if equivalent(s) {
		return same, nil
	}
	dir, err := os.MkdirTemp("", "mutant")
	if err != nil {
		return 0, err
	}
	defer os.RemoveAll(dir)
	overlay, err := s.overlay(root, dir)
	if err != nil {
		return 0, err
	}
	program := filepath.Join(dir, "tests")
	build := exec.Command("nice", "-n", "19", "go", "test", "-c", "-vet=off", "-ldflags=-s -w",
		"-overlay", overlay, "-o", program, "./"+r.folder)
	build.Dir = root
	if said, err := build.CombinedOutput(); err != nil {
		if !bytes.Contains(said, []byte(changedName)) {
			return 0, fmt.Errorf("%s: building failed elsewhere: %s", s, said)
		}
		return stillborn, nil
	}
	quick := []string{"-test.skip", either(r.slow, r.never)}
	if f := r.run(root, program, quickSeconds, quick); f == killed || r.slow == "" {
		return f, nil
	}
	return r.run(root, program, slowSeconds, []string{"-test.run", r.slow, "-test.skip", either(r.never)}), nil
}

// either is an expression for any of those that are not empty, and for nothing.
func either(expressions ...string) string {
	return strings.Join(append(slices.DeleteFunc(expressions, func(e string) bool { return e == "" }), "^$"), "|")
}

// changedName is the file with the change, which a compiler that refuses it names.
const changedName = "changed.go"

// overlay writes the changed file and the list that lays it over the tree.
func (s site) overlay(root, dir string) (string, error) {
	where, err := filepath.Abs(filepath.Join(root, s.file))
	if err != nil {
		return "", err
	}
	src, err := os.ReadFile(where)
	if err != nil {
		return "", err
	}
	changed, list := filepath.Join(dir, changedName), filepath.Join(dir, "overlay.json")
	text := slices.Concat(src[:s.from], []byte(s.with), src[s.to:])
	if err := os.WriteFile(changed, text, 0o600); err != nil {
		return "", err
	}
	table, err := json.Marshal(map[string]map[string]string{"Replace": {where: changed}})
	if err != nil {
		return "", err
	}
	return list, os.WriteFile(list, table, 0o600)
}

// run runs tests of a room. Those that draw at random draw the same each time.
func (r room) run(root, program string, most int, which []string) fate {
	stop, cancel := context.WithTimeout(context.Background(), lastTime)
	defer cancel()
	args := slices.Concat([]string{"-n", "19", "prlimit", fmt.Sprintf("--as=%d", trialMemory),
		fmt.Sprintf("--cpu=%d", most), program, "-test.failfast"}, which, r.args)
	c := exec.CommandContext(stop, "nice", args...)
	c.Dir = filepath.Join(root, r.folder)
	if c.Run() != nil {
		return killed
	}
	return survived
}
