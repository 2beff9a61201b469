package page

import (
	"bytes"
	"context"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"testing"
	"testing/synctest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Who asks for a picture beside a plan goes on once that is planned, and no sooner.
func TestAPictureWaitsForTheGlanceUnderWay(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var g glances
		g.pass(t.Context()) // none is under way
		end := g.enter(question{Text: "a"})
		passed := false
		go func() {
			g.pass(t.Context())
			passed = true
		}()
		gone, leave := context.WithCancel(t.Context())
		left := make(chan struct{})
		go func() {
			g.pass(gone)
			close(left)
		}()
		leave()
		<-left // who is gone waits for nothing
		synctest.Wait()
		assert.False(t, passed)
		end("b")
		synctest.Wait()
		assert.True(t, passed)
	})
}

// The same changes of the same text are not made twice; what could not be planned is.
func TestWhatAChangeLedToIsKnown(t *testing.T) {
	one, other := 1.0, 2.0
	edits := []Edit{{Path: "axis.rail.to", Pos: &one}}
	var g glances
	_, ok := g.led("a", edits)
	assert.False(t, ok, "nothing was planned")
	g.enter(question{Text: "a", Edits: edits})("b")
	for name, c := range map[string]struct {
		text  string
		edits []Edit
		led   bool
	}{
		"the same":         {"a", []Edit{{Path: "axis.rail.to", Pos: new(1.0)}}, true},
		"another text":     {"b", edits, false},
		"another place":    {"a", []Edit{{Path: "axis.rail.to", Pos: &other}}, false},
		"another path":     {"a", []Edit{{Path: "axis.rail.from", Pos: &one}}, false},
		"a value":          {"a", []Edit{{Path: "axis.rail.to", Value: new("1 mm")}}, false},
		"no change at all": {"a", nil, false},
	} {
		led, ok := g.led(c.text, c.edits)
		assert.Equal(t, c.led, ok, name)
		if ok {
			assert.Equal(t, "b", led)
		}
	}
	g.enter(question{Text: "a", Edits: edits})("")
	_, ok = g.led("a", edits)
	assert.False(t, ok)
}

// The picture of a step is drawn from the plan of the step.
func TestAStepIsPlannedOnce(t *testing.T) {
	d := heavilyBrowsed(t)
	text, _ := heavyShot(t)
	edits := []Edit{{Path: "axis.rail.keys[3]", Frame: new(96.0), Pos: new(97.0)}}
	_, err := d.plan(t.Context(), question{Text: text, Edits: edits, Quick: true})
	require.NoError(t, err)
	before := d.plans.kept[0].plan
	data, err := json.Marshal(previewQuestion{Text: text, Edits: edits, Width: 64, Frames: []int64{96}, Beside: true})
	require.NoError(t, err)
	w := httptest.NewRecorder()
	d.preview(w, httptest.NewRequest(http.MethodPost, "/api/preview", bytes.NewReader(data)))
	require.Equal(t, http.StatusOK, w.Code, w.Body.String())
	require.Same(t, before, d.plans.kept[0].plan)
	assert.Equal(t, sketched, d.plans.kept[0].to)
}
