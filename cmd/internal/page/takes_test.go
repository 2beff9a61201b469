package page

import (
	"encoding/json"
	"net/http"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/motion/spec/rig"
)

// onButtons is a shot on a rig that is set and started by hand.
const onButtons = `shot = "Fernhollow lantern"
[clock]
capture = "119.88"
playback = "23.976"
loop = "144 frames"
[rig]
file = "buttons.toml"
[axis.rail]
from = "40 mm"
to = "100 mm"
dwell-far = "12 frames"
dwell-near = "12 frames"
`

// A take that was filmed on a rig to which nothing is sent is logged from the page, and is
// then like any other.
func TestATakeIsLoggedByHand(t *testing.T) {
	s, dir := opened(t)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "buttons.toml"), starter.RigWith(rig.TwoEnds), 0o600))
	ask := func(q any) (int, []Take, string) {
		w := posted(s, "/api/takes", q)
		var a struct{ Takes []Take }
		require.NoError(t, json.Unmarshal(w.Body.Bytes(), &a))
		return w.Code, a.Takes, w.Body.String()
	}
	code, takes, told := ask(map[string]any{"log": TakeLog{Text: onButtons, Rounds: 2, Took: 2.35, Group: "plates", Pass: "light"}})
	require.Equal(t, http.StatusOK, code, told)
	require.Len(t, takes, 1)
	assert.Equal(t, "finished", takes[0].End)
	assert.Equal(t, []any{int64(2), "plates", "light", false, true}, []any{takes[0].Rounds, takes[0].Group, takes[0].Pass, takes[0].Virtual, takes[0].ByHand})
	keep := true
	code, takes, told = ask(map[string]any{"mark": TakeMark{Take: 1, Keep: &keep, Clip: "A001C001.mov"}})
	require.Equal(t, http.StatusOK, code, told)
	assert.True(t, takes[0].Keep)
	assert.Equal(t, "A001C001.mov", takes[0].Clip)

	for _, wrong := range []TakeLog{{Text: onButtons, Took: 99}, {Text: onButtons, Rounds: -1}, {Text: onButtons, Group: "plates"}, {Text: "shot = 3"}, {}} {
		code, _, told := ask(map[string]any{"log": wrong})
		assert.Equal(t, http.StatusUnprocessableEntity, code, told)
	}
	_, takes, _ = ask(map[string]any{})
	assert.Len(t, takes, 1, "what is refused is not logged")
}
