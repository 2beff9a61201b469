// Package mutants_test asks whether tests hold the arithmetic that keeps a rig safe: it
// changes one thing in the code, runs the tests of its package, and counts how often
// they notice. It holds tests alone.
package mutants_test

import (
	"cmp"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// drawn are what tests that draw at random are told: the same each time, no looking for
// the least that fails, and no file of it in the tree.
var drawn = []string{"-rapid.seed=1", "-rapid.shrinktime=0s", "-rapid.nofailfile"}

// rooms are the packages that are held to it.
var rooms = []room{
	{folder: "motion/plan", args: drawn},
	{folder: "motion/controller/segment", args: drawn},
	{folder: "motion/controller/firmware", args: drawn},
	// What is promised of a take: the speeds of a chain and its ticks, what is seen of a
	// run, what is foretold by it and held to. The search for a good cut is not changed:
	// what it finds is run line by line on the model, so that a worse search is a worse
	// cut and never a promise that is false. Without takes that are counted out.
	{folder: "motion/controller/ontime", args: drawn, files: []string{"chain.go", "countable.go", "predict.go", "ticks.go", "within.go", "witness.go"},
		slow: "WouldFit|FilledIn|ChosenBlocks|DoNotDrift|Lockstep", never: "RoundsThatCanBeCounted"},
	{folder: "motion/verify", args: drawn, slow: "SoundLoops|FastSteps"},
	// Without takes of any kind that must not be ended, which are too few in short, takes
	// of an hour, rows of a thousand and each fault at each step.
	{folder: "export/drive", args: append([]string{"-test.short"}, drawn...),
		slow:  "Settings|Abort|Silent|Virtual|AreMeasured|LostAnswers|DwellsAreTried|Storms|SecondStop|NoSick|AWellController|StopBefore|TakesAreCounted|MayOvertake|ComeFromOneSide|OverTheWire",
		never: "HealthyTakes|RatesAreRates|AThousand|StormsSweep"},
}

// needed is the share of mutants that tests have to kill.
const needed = 0.9

// sideBySide is how many mutants are tried at once.
const sideBySide = 2

// TestSafetyArithmeticIsHeld samples so many mutants as SEAMRAIL_MUTANTS says, in all
// rooms or in those that SEAMRAIL_MUTANTS_ROOMS names, by the seed in
// SEAMRAIL_MUTANTS_SEED, as many in each.
func TestSafetyArithmeticIsHeld(t *testing.T) {
	many, picked := os.Getenv("SEAMRAIL_MUTANTS"), cmp.Or(os.Getenv("SEAMRAIL_MUTANTS_SEED"), "1")
	if many == "" {
		t.Skip("set SEAMRAIL_MUTANTS to how many mutants are to be tried")
	}
	want, err := strconv.Atoi(many)
	require.NoError(t, err)
	seed, err := strconv.ParseInt(picked, 10, 64)
	require.NoError(t, err)
	root, err := filepath.Abs("../..")
	require.NoError(t, err)
	t.Logf("seed %d", seed)
	chosen := roomsNamed(t, os.Getenv("SEAMRAIL_MUTANTS_ROOMS"))
	var sum tally
	for _, r := range chosen {
		got, err := r.sample(root, seed, (want+len(chosen)-1)/len(chosen), sideBySide, func(s site, f fate) {
			if f == survived || f == same {
				t.Logf("%s %s", fates[f], s)
			}
		})
		require.NoError(t, err)
		t.Logf("%s: %s", r.folder, got)
		for f, n := range got.count {
			sum.count[f] += n
		}
	}
	t.Logf("all: %s", sum)
	assert.GreaterOrEqual(t, sum.share(), needed, "tests notice too little: see what survived above")
}

// roomsNamed are those of a list; all of them where it is empty.
func roomsNamed(t *testing.T, list string) []room {
	if list == "" {
		return rooms
	}
	var out []room
	for name := range strings.SplitSeq(list, ",") {
		i := slices.IndexFunc(rooms, func(r room) bool { return r.folder == name })
		require.GreaterOrEqual(t, i, 0, "%s is no room that is held to it", name)
		out = append(out, rooms[i])
	}
	return out
}
