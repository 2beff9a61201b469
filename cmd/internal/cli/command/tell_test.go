package command_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli/command"
	"seamrail/export/report"
)

// shortly is a report with a short answer.
type shortly struct{ cautions bool }

func (s shortly) Brief() report.Report {
	r := report.Report{Title: "Lantern"}
	r.Headline(report.Good, "READY", "It closes.")
	r.Named("answer", "")
	r.Field("keep", "round 2")
	return r
}

func (s shortly) Report() report.Report {
	r := s.Brief()
	r.Section("RAIL")
	r.Field("moves", "in and out")
	if s.cautions {
		r.Named("cautions", "BEFORE IT MOVES")
		r.Bullets(report.Fair, "!", "Mind the belt.")
	}
	return r
}

func (shortly) Facts() any { return map[string]int{"rounds": 3} }

func told(t *testing.T, how command.Told, c report.Content) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, how.Tell(command.Streams{Out: &b}, c))
	return b.String()
}

const head = "Lantern\n\nREADY  It closes.\n"

func TestAsMuchIsToldAsIsAskedFor(t *testing.T) {
	c := shortly{cautions: true}
	for want, how := range map[string]command.Told{
		head + "\n  keep          round 2\n" +
			"\n  ! Nothing moves here. What to mind before anything does: --show cautions\n  More: --all, or --show with any of rail, cautions\n": {},
		head + "\n  keep          round 2\n\nRAIL\n  moves         in and out\n\nBEFORE IT MOVES\n  ! Mind the belt.\n": {All: true},
		head + "\nRAIL\n  moves         in and out\n":                                                                   {Show: []string{"Rail"}},
		"{\n  \"rounds\": 3\n}\n": {JSON: true},
	} {
		assert.Equal(t, want, told(t, how, c))
	}
	assert.NotContains(t, told(t, command.Told{}, shortly{}), "Nothing moves here")
}

func TestWhatCannotBeTold(t *testing.T) {
	for want, how := range map[string]command.Told{
		`--show "lens" is no section of this report; it has answer, rail`: {Show: []string{"rail", "lens"}},
		"--json tells everything; leave --all and --show out":             {JSON: true, All: true},
	} {
		var b strings.Builder
		assert.EqualError(t, how.Tell(command.Streams{Out: &b}, shortly{}), want)
		assert.Empty(t, b.String())
	}
}
