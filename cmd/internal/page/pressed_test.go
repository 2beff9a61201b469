package page

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/starter/kinds"
	"seamrail/motion/plan/sample/many"
	"seamrail/motion/spec/rig"
)

// noValue is what may keep a rig from being driven though no value of the shot or of its rig
// would mend it, by what is said of it or, for a hand, would do; each with why.
var noValue = map[string]string{
	"slowest step rate":                            "a move of hours is slower than a board can step: that wants a board that plays a table of steps, or a shot of another kind, taken frame by frame",
	"a board that plays a table of steps would do": "a creeping move takes so many single steps and stands that the board loses count of time; quicker, it is too quick for the picture",
}

// mostPressed is after how many presses anybody is tired of it; the longest way seen has 6.
const mostPressed = 10

// pressed takes up what the headline offers, as its button does, until it offers nothing, and
// returns the last headline and all that was offered.
func pressed(t testing.TB, d *desk, text string, edits []Edit) (last Headline, offers []string) {
	t.Helper()
	for {
		a := d.answer(t.Context(), question{Text: text, Edits: edits})
		require.NotNil(t, a.View, "%v: %v", offers, a.Faults)
		text = a.Text
		x, err := d.controller(t.Context(), controllerQuestion{text})
		require.NoError(t, err)
		last = x.Headline
		if last.Worst == nil || last.Worst.Fit == nil || len(last.Worst.Fit.Edits) == 0 {
			return last, offers
		}
		offers = append(offers, last.Worst.Name+": "+last.Worst.Fit.Text)
		require.LessOrEqual(t, len(offers), mostPressed, strings.Join(offers, "\n"))
		edits = typed(last.Worst.Fit.Edits)
	}
}

// drawnShot is a kind of shot with random answers to some of its questions, in a folder of its own.
func drawnShot(t *testing.T, r *rapid.T) (*desk, string) {
	k := rapid.SampledFrom(kinds.All()).Draw(r, "kind")
	machine := k.BuiltIn(starter.Rig(), true)
	decoded, _, err := rig.Decode(starter.RigName, machine)
	require.NoError(t, err)
	bench, answers := kinds.BenchOf(decoded, true), kinds.Answers{}
	for _, q := range k.Questions(bench, nil) {
		if !rapid.Bool().Draw(r, "answer "+q.Name) {
			continue
		}
		least, most := q.Bounds()
		if q.Name == "interval" {
			most = 3 // s; a move of hours takes long to be run on the model of a board
		}
		x := rapid.Float64Range(least, most).Draw(r, q.Name)
		answers[q.Name] = fmt.Sprintf("%.3f", x)
		if q.Whole {
			answers[q.Name] = fmt.Sprintf("%.0f", x)
		}
	}
	text, err := k.Make(bench, answers, starter.RigName, true)
	if err != nil {
		r.Skip(err.Error()) // two ends in one place, say
	}
	return deskOf(t, text, machine), string(text)
}

// TestNoCureLeadsToADeadEnd presses what is offered, again and again: in the end the rig may be
// driven, or what keeps it from that is no value of a file.
func TestNoCureLeadsToADeadEnd(t *testing.T) {
	many.Check(t, 8, func(r *rapid.T) {
		d, text := drawnShot(t, r)
		ill := rapid.SampledFrom(ailments).Draw(r, "ailment")
		if a := d.answer(t.Context(), question{Text: text, Edits: typed(ill), Quick: true}); a.View == nil {
			ill = nil // the kind has no such key
		}
		if a := d.answer(t.Context(), question{Text: text, Edits: typed(ill), Quick: true}); a.View == nil {
			r.Skip("the answers make no shot that can be planned")
		}
		last, offers := pressed(t, d, text, typed(ill))
		if last.Ready {
			return
		}
		for said := range noValue {
			if strings.HasPrefix(last.Worst.Text, said) || last.Worst.Fit != nil && last.Worst.Fit.Hand && strings.HasPrefix(last.Worst.Fit.Text, said) {
				return
			}
		}
		r.Fatalf("%s\n%s %s: %s", strings.Join(offers, "\n"), last.Words, last.Worst.Name, last.Worst.Text)
	})
}

// TestABottleThatTurnsTooFastIsSlowedDown is the way that led to a dead end: the loop in which
// the table just keeps its limit left the controller nothing to make up with.
func TestABottleThatTurnsTooFastIsSlowedDown(t *testing.T) {
	k, _ := kinds.Named("turntable")
	machine := k.BuiltIn(starter.Rig(), true)
	r, _, err := rig.Decode(starter.RigName, machine)
	require.NoError(t, err)
	text, err := k.Make(kinds.BenchOf(r, true), kinds.Answers{"loop": "8 s", "faces": "1"}, starter.RigName, true)
	require.NoError(t, err)
	last, offers := pressed(t, deskOf(t, text, machine), string(text), nil)
	assert.True(t, last.Ready, "%v: %s", offers, last.Words)
	require.NotEmpty(t, offers)
	assert.Regexp(t, `^speed: a loop of \d+ frames`, offers[0])
	for _, o := range offers {
		assert.NotContains(t, o, "controller", "the loop that mends the speed is one that the controller follows")
	}
}
