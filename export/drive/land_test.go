package drive

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/controller/program"
)

// TestHowFarOffAPassMayBe: a twentieth of a second and a tenth of the pass, a quarter of a
// second at the most, but never less than clocks are out by: 0.71 % of it.
func TestHowFarOffAPassMayBe(t *testing.T) {
	for foretold, want := range map[float64]float64{0: 0.05, 1: 0.15, 2: 0.25, 10: 0.25, 35: 0.25, 100: 0.71, 3600: 25.56} {
		assert.InDelta(t, want, mostOff(foretold), 1e-9, "%g s", foretold)
	}
}

// TestHowAPassIsJudged by how long its motion took: a pass of 20 s or so may be a quarter
// of a second off and what is in doubt; half a frame of a 24th that is sure is told; one
// that was held has stood still, and is only refused where it was too quick.
func TestHowAPassIsJudged(t *testing.T) {
	const frame = 1000.0 / 24
	for _, x := range []struct {
		name       string
		off, doubt float64 // ms from the plan, and known to
		held       bool
		foretold   float64 // ms from the plan
		fails      string
		told       string
	}{
		{"as planned", 0, 1, false, 0, "", ""},
		{"half a frame", frame/2 + 0.9, 1, false, 0, "", ""},
		{"surely more than half a frame", frame/2 + 1.1, 1, false, 0, "", "longer than planned"},
		{"surely less", -frame/2 - 1.1, 1, false, 0, "", "less than planned"},
		{"held", 900, 1, true, 0, "", ""},
		{"held, and too quick", -252, 1, true, 0, "its motion took", ""},
		{"late, just", 250.9, 1, false, 0, "", "longer"},
		{"too late", 251.1, 1, false, 0, "its motion took", ""},
		{"too early", -251.1, 1, false, 0, "its motion took", ""},
		{"early, just", -250.9, 1, false, 0, "", "less"},
		{"as late as was foretold", 300, 1, false, 200, "", "longer"},
		{"later than was foretold", 460, 1, false, 200, "its motion took", ""},
		{"not known", 0, 251, false, 0, "is known to 251 ms only", ""},
		{"hardly known", 0, 249, false, 0, "", ""},
		{"held, and not known", 0, 251, true, 0, "", ""},
	} {
		talks, said := talking(t, 3, nil)
		if x.foretold != 0 {
			talks.Foretold = func(rounds int64) float64 { return talks.planned(rounds) + x.foretold/1000 }
		}
		p := newPass(talks.engine, 1)
		p.rounds, p.held, p.doubt = 3, x.held, x.doubt/1000
		p.executed = p.planned(3) + x.off/1000
		err := talks.engine.judge(p)
		if x.fails == "" {
			require.NoError(t, err, x.name)
		} else {
			require.ErrorContains(t, err, x.fails, x.name)
		}
		if x.told == "" {
			assert.Empty(t, said.said, x.name)
		} else if assert.Len(t, said.said, 1, x.name) {
			assert.Contains(t, said.said[0], x.told)
		}
	}
}

// TestWhereAPassHasRested: it may go on from there, within a step and what reports are
// worth.
func TestWhereAPassHasRested(t *testing.T) {
	p := passing(t, 3)
	p.rest = []float64{100}
	for deg, want := range map[float64]int{100: -1, 100.19: -1, 99.81: -1, 100.21: 0, 99.79: 0} {
		assert.Equal(t, want, p.moved([]float64{deg}), "%g deg", deg)
	}
	assert.Equal(t, -1, p.moved(nil))
	p.rest = nil
	assert.Equal(t, -1, p.moved([]float64{5}))
}

// reckoning is a talker with lines in flight and a report of so many free bytes of 128.
func reckoning(t *testing.T, free int, lines ...string) *talker {
	talks, _ := talking(t, 1, nil)
	talks.ledger.empty = 128
	for i, text := range lines {
		talks.flight = append(talks.flight, sent{number: i + 1, text: text, bytes: len(text) + 1, line: &program.Line{Text: text, Moves: text[1] == '1'}, across: noon})
		talks.bytes += len(text) + 1
	}
	talks.status = status{state: "Run", bytes: free, blocks: 5}
	return talks
}

// TestAnAnswerThatWasLostShows: what has been sent and not answered is in the buffer, or in
// work. A line that is in none of both has been done, and nothing was heard of it.
func TestAnAnswerThatWasLostShows(t *testing.T) {
	lines := []string{"G1 X100 F1", "G1 X200 F2", "G1 X300 F3"} // 11 bytes each
	for _, x := range []struct {
		name   string
		free   int
		blocks int
		after  float64 // ms that the report was asked for after the lines were there
		off    int
	}{
		{"all three wait", 128 - 33, 5, 100, 0},
		{"one is in work, with room for it", 128 - 22, 5, 100, 1},
		{"just now", 128 - 22, 5, 10, 0},
		{"one is in work, without room", 128 - 22, 0, 100, 0},
		{"one and part of the next", 128 - 21, 0, 100, 1},
		{"two are gone", 128 - 11, 0, 100, 1},
		{"more than that wait", 128 - 40, 5, 100, 0},
		{"it does not say", -1, 5, 100, 0},
	} {
		talks := reckoning(t, x.free, lines...)
		talks.status.blocks = x.blocks
		talks.ledger.agrees = true
		talks.reckon(asking{at: at(x.after), lined: 33})
		assert.Equal(t, x.off, talks.ledger.off, x.name)
		assert.Nil(t, talks.failure, "one report may be noise")
		talks.reckon(asking{at: at(x.after), lined: 33})
		assert.Equal(t, 2*x.off, talks.ledger.off, x.name)
		if assert.Equal(t, x.off > 0, talks.failure != nil, x.name) && x.off > 0 {
			assert.Equal(t, Unmatched, talks.failure.End)
		}
	}
}

// TestOnlyABoardThatAgreesIsHeldToIt: one whose buffer has shown, at a dwell, all that
// was sent but the dwell.
func TestOnlyABoardThatAgreesIsHeldToIt(t *testing.T) {
	ask := asking{at: at(100), lined: 8 + 11}
	talks := reckoning(t, 128-11, "G4 P0.5", "G1 X100 F1")
	talks.reckon(ask)
	assert.True(t, talks.ledger.agrees)
	assert.Zero(t, talks.ledger.off)
	talks = reckoning(t, 128-19, "G4 P0.5", "G1 X100 F1")
	talks.reckon(ask)
	assert.False(t, talks.ledger.agrees, "the dwell is still in it")
	talks = reckoning(t, 128, "G4 P0.5")
	talks.reckon(asking{at: at(100), lined: 8})
	assert.False(t, talks.ledger.agrees, "an empty buffer shows nothing")
	talks = reckoning(t, 128-11, "G1 X100 F1", "G1 X200 F2", "G1 X200 F2")
	talks.reckon(asking{at: at(100), lined: 33})
	talks.reckon(asking{at: at(100), lined: 33})
	assert.Equal(t, 2, talks.ledger.off)
	assert.Nil(t, talks.failure, "whatever else it tells means nothing")

	// A quiet wire tells how many bytes are free when it holds nothing.
	talks = reckoning(t, 100)
	talks.said = 50
	talks.reckon(asking{at: at(100), lined: 50, quiet: true})
	assert.Equal(t, ledger{empty: 100, sent: 50, said: 50}, talks.ledger)
	talks.ledger.empty = 0
	talks.reckon(asking{at: at(100), lined: 50})
	assert.Zero(t, talks.ledger.empty)
}

// TestABoardThatIdles has lines that it should do, and does nothing: an answer was lost.
func TestABoardThatIdles(t *testing.T) {
	for _, x := range []struct {
		name  string
		set   func(*talker)
		after float64
		idles bool
	}{
		{"with a line", func(*talker) {}, 10, true},
		{"that has only just come", func(*talker) {}, 9.9, false},
		{"that is still on the wire", func(t *talker) { t.flight[0].across = time.Time{} }, 10, false},
		{"with none", func(t *talker) { t.flight = nil }, 10, false},
		{"while it runs", func(t *talker) { t.status.state = "Run" }, 10, false},
		{"while nothing is sent", func(t *talker) { t.stream.paused = true }, 10, false},
		{"at a dwell", func(t *talker) { t.flight[0].text = "G4 P1" }, 10, false},
		{"at a line that is not the take's", func(t *talker) { t.flight[0].line = nil }, 10, false},
	} {
		talks := reckoning(t, 128, "G1 X100 F1")
		talks.status.state = "Idle"
		x.set(talks)
		assert.Equal(t, x.idles, talks.idles(asking{at: at(x.after)}), x.name)
		if x.idles {
			assert.Equal(t, 1, talks.ledger.off)
		}
	}
}
