package page

import (
	"encoding/json"
	"net/http"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter/kinds"
)

// TestWhatTakesALoopUp has the page take up each loop that spin finds: it is then as long,
// at the rate and the speed that were told.
func TestWhatTakesALoopUp(t *testing.T) {
	k, ok := kinds.Named("display-stand")
	require.True(t, ok)
	d, text := bedside(t, k)
	for _, ail := range [][]Set{nil, {{"clock.loop", "61 frames"}}, {{"clock.offers", "100"}}} {
		ill := d.answer(t.Context(), question{Text: text, Edits: typed(ail), Quick: true})
		if ill.View == nil {
			continue
		}
		told, err := d.spin(t.Context(), asking{Text: ill.Text})
		require.NoError(t, err)
		require.NotEmpty(t, told.Loops)
		require.Len(t, told.Take, len(told.Loops))
		require.Len(t, told.Offers, len(told.Fits))
		for i, l := range told.Loops {
			require.NotEmpty(t, told.Take[i].Edits)
			after := d.answer(t.Context(), question{Text: ill.Text, Edits: typed(told.Take[i].Edits), Quick: true})
			require.NotNil(t, after.View, "%v: %v", told.Take[i], after.Faults)
			assert.Equal(t, l.Screen, after.View.Timeline)
			assert.Equal(t, l.Captured, after.View.Frames)
			p, err := d.planned(after.Text)
			require.NoError(t, err)
			assert.Equal(t, l.Seams[0].Speed, p.Plan.Stands[0].Speed.Name)
			assert.Equal(t, l.Closes, p.Plan.Stands[0].Seam.Closes())
		}
	}
}

// TestWhatTakesTheQuickestUp has the law go to each axis that it was tried for, and to no
// other.
func TestWhatTakesTheQuickestUp(t *testing.T) {
	s, _ := opened(t)
	d := s.first
	told, err := d.fit(t.Context(), asking{Text: d.text(t), Flags: map[string]string{"laws": "cycloidal", "between": "5 s,7 s"}})
	require.NoError(t, err)
	require.NotNil(t, told.Quickest)
	assert.Contains(t, told.TakeQuickest.Edits, Set{"axis.rail.law", "cycloidal"})
	assert.NotContains(t, told.TakeQuickest.Edits, Set{"axis.table.law", "cycloidal"}, "which goes round")
	after := d.answer(t.Context(), question{Text: d.text(t), Edits: typed(told.TakeQuickest.Edits), Quick: true})
	require.NotNil(t, after.View, "%v", after.Faults)
	assert.Equal(t, told.Quickest.Screen, after.View.Timeline)
	assert.Equal(t, "cycloidal", after.View.Axes[0].Law)
}

// What a command says with --json is what the page is told, with more beside it.
func TestTheAnswerIsThatOfTheCommand(t *testing.T) {
	s, _ := opened(t)
	w := posted(s, "/api/spin", map[string]any{"text": s.first.text(t)})
	require.Equal(t, http.StatusOK, w.Code)
	var keys map[string]any
	require.NoError(t, json.Unmarshal(w.Body.Bytes(), &keys))
	assert.Equal(t, "seamrail-spin/1", keys["schema"])
	assert.Contains(t, keys, "loops")
	assert.Contains(t, keys, "take")
}

func (s *desk) text(t *testing.T) string {
	t.Helper()
	x, err := s.doc.disk()
	require.NoError(t, err)
	return x.Text
}
