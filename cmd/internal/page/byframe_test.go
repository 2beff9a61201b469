package page

import (
	"net/http"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
)

// A page that drives a take frame by frame is told how far it has come, and says that a frame
// is taken only while it is waited for.
func TestATakeFrameByFrame(t *testing.T) {
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Running)
		assert.Equal(t, http.StatusConflict, d.do("taken"), "nobody is waited for")
		d.s.stage.Progress(drive.Progress{Take: 1, Frame: 3, Taken: 3, Of: 24, Left: 90 * time.Second, Timecode: "00:00:00:03"})
		d.s.stage.Called(drive.Beat{Text: "frame 3, the 4th of 24"})
		d.s.stage.Enter(drive.Awaiting)
		x := d.state()
		assert.Equal(t, "waiting for the hand", x.State, "as the page knows it")
		assert.Equal(t, []string{"stop", "quit", "taken"}, x.Takes)
		assert.Equal(t, []any{int64(3), int64(24), int64(3), 90.0, "frame 3, the 4th of 24"}, []any{x.Taken, x.Of, x.Frame, x.Left, x.Calls[0].Text})
		assert.Equal(t, http.StatusOK, d.do("taken"))
		assert.Equal(t, []drive.RequestKind{drive.Taken}, d.run.asked())
		d.s.stage.Passed(drive.Pass{Take: 1, End: drive.Stopped, Frames: 4, Of: 24})
		p := d.state().Passes[0]
		assert.Equal(t, []int64{4, 24, 0}, []int64{p.Frames, p.Of, p.Rounds}, "rounds say nothing of it")
	})
}

// The log tells how many frames of a take were exposed, and the view which shots are so
// taken, or have a sync mark.
func TestTheViewTellsHowItIsTaken(t *testing.T) {
	b := browsed(t)
	plain := b.planned(b.text, true).View
	assert.False(t, plain.ByFrame || plain.SyncMark)
	assert.True(t, b.planned(b.text+"\n[sync-mark]\nwith = \"click\"\n", true).View.SyncMark)
	require.NoError(t, os.WriteFile(filepath.Join(b.dir, "lantern.takes.jsonl"), []byte(`{"record":"begin","time":"2026-03-14T12:00:01Z","take":1,"rounds":1}
{"record":"frame","time":"2026-03-14T12:00:02Z","take":1,"frames":4}
{"record":"end","time":"2026-03-14T12:00:14Z","take":1,"frames":4,"outcome":"stopped","position_known":true}
`), 0o600))
	var takes struct{ Takes []Take }
	_, _ = b.asked("takes", m{}, &takes)
	assert.EqualValues(t, 4, takes.Takes[0].Frames)
}
