package page

import (
	"bytes"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
)

// heavyShot is the starter's as a shot of many parts: a minute on screen of 1440
// frames, thirty keys on the rail, two stands that turn by themselves and a third lamp.
func heavyShot(t testing.TB) (shot, rig string) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("testdata", "heavy", starter.ShotName))
	require.NoError(t, err)
	bench, err := os.ReadFile(filepath.Join("testdata", "heavy", starter.RigName))
	require.NoError(t, err)
	return string(text), string(bench)
}

// heavilyBrowsed is a page of that shot.
func heavilyBrowsed(t testing.TB) *desk {
	t.Helper()
	dir := t.TempDir()
	shot, rig := heavyShot(t)
	name := filepath.Join(dir, starter.ShotName)
	require.NoError(t, os.WriteFile(name, []byte(shot), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, starter.RigName), []byte(rig), 0o600))
	s, err := Open(Options{Shot: name, Version: "test"})
	require.NoError(t, err)
	t.Cleanup(func() { _ = s.Close() })
	return s.first
}

// maxHeavy is sixteen times what the quickest step of a drag of that shot takes from
// question to answer on two processors for which twenty programs are ready. The benchmark
// below measures it.
const maxHeavy = time.Second

// A shot of many parts follows the hand too, and holds: what breaks limits is quicker.
func TestAHeavyShotIsPlannedAsAHandDrags(t *testing.T) {
	d := heavilyBrowsed(t)
	text, _ := heavyShot(t)
	quickest := time.Hour
	for i := range 8 {
		pos, frame := 95+float64(i)/2, 96.0
		edits := []Edit{{Path: "axis.rail.keys[3]", Frame: &frame, Pos: &pos}}
		began := time.Now()
		a := d.answer(t.Context(), question{Text: text, Quick: true, Edits: edits})
		quickest = min(quickest, time.Since(began))
		require.NotNil(t, a.View, "%v", a.Faults)
		assert.True(t, a.View.Sketch)
		assert.True(t, a.View.Headline.Ready, a.View.Headline.Words)
		assert.Len(t, a.View.Stands, 2)
		assert.InDelta(t, pos, a.View.Axes[0].Pos[96/a.View.Every], 0.1)
	}
	t.Logf("planned in %v", quickest)
	assert.Less(t, quickest, maxHeavy)
}

// maxAnswer is what the answer of that shot may have, in bytes: it is read by a browser
// with every step of a drag.
const maxAnswer = 110_000

func TestAHeavyAnswerIsNoLongerThanAScreenShows(t *testing.T) {
	d := heavilyBrowsed(t)
	text, _ := heavyShot(t)
	data, err := json.Marshal(d.answer(t.Context(), question{Text: text, Quick: true}))
	require.NoError(t, err)
	t.Logf("%d bytes", len(data))
	assert.Less(t, len(data), maxAnswer)
}

// The picture of a step takes only where things stand: it is there before the plan.
func TestThePictureOfAStepWaitsForNoVerdict(t *testing.T) {
	d := heavilyBrowsed(t)
	text, _ := heavyShot(t)
	pos, frame := 97.0, 96.0
	edits := []Edit{{Path: "axis.rail.keys[3]", Frame: &frame, Pos: &pos}}
	data, err := json.Marshal(previewQuestion{Text: text, Edits: edits, Width: 64, Frames: []int64{96}})
	require.NoError(t, err)
	w := httptest.NewRecorder()
	d.preview(w, httptest.NewRequest(http.MethodPost, "/api/preview", bytes.NewReader(data)))
	require.Equal(t, http.StatusOK, w.Code, w.Body.String())
	assert.Len(t, pictures(t, w.Body), 1)
	require.NotEmpty(t, d.plans.kept)
	for _, k := range d.plans.kept {
		assert.Equal(t, posed, k.to, "nothing was looked at")
	}
}

// BenchmarkHeavyStep is what a step of a drag waits for in a shot of many parts.
func BenchmarkHeavyStep(b *testing.B) {
	for _, quick := range []bool{true, false} {
		b.Run(map[bool]string{true: "dragged", false: "let go"}[quick], func(b *testing.B) {
			d := heavilyBrowsed(b)
			text, _ := heavyShot(b)
			i := 0
			for b.Loop() {
				i++
				pos, frame := 95+float64(i%100)/20, 96.0
				a := d.answer(b.Context(), question{Text: text, Quick: quick, Edits: []Edit{{Path: "axis.rail.keys[3]", Frame: &frame, Pos: &pos}}})
				require.NotNil(b, a.View, "%v", a.Faults)
			}
		})
	}
}
