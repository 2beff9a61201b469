package page

import (
	"context"
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive"
)

// listener is a page without a shot that listens.
type listener struct {
	t    *testing.T
	w    *httptest.ResponseRecorder
	read int // bytes
	end  func()
}

func (d driver) listens() *listener {
	ctx, end := context.WithCancel(context.Background())
	l := &listener{t: d.t, w: httptest.NewRecorder(), end: end}
	go d.s.http.Handler.ServeHTTP(l.w, request(d.s, http.MethodPost, "/api/drive/watch", map[string]any{}).WithContext(ctx))
	return l
}

// news is what has been told since it was asked for last.
func (l *listener) news() (out []News) {
	l.t.Helper()
	synctest.Wait()
	text := l.w.Body.String()[l.read:]
	l.read += len(text)
	for line := range strings.Lines(text) {
		var n News
		require.NoError(l.t, json.Unmarshal([]byte(line), &n))
		require.Nil(l.t, n.Disk, "it has no shot")
		require.Nil(l.t, n.Under)
		out = append(out, n)
	}
	return out
}

// A page without a shot hears how it stands with the rig, and that the program is there: at
// once, with each change and with each beat.
func TestTheRigIsWatchedWithoutAShot(t *testing.T) {
	driven(t, func(d driver) {
		d.s.stage.Enter(drive.Ready)
		l := d.listens()
		first := l.news()
		require.Len(t, first, 2)
		assert.Equal(t, 1, first[0].Beat)
		assert.Equal(t, drive.Ready.String(), first[1].Drive.State)
		assert.Equal(t, runsOn(drive.Ready, false, 0), first[1].Drive.RunsOn)
		assert.Empty(t, l.news(), "nothing has changed")

		d.s.stage.Enter(drive.Running)
		d.s.stage.Progress(drive.Progress{Take: 2, Ahead: 1.5})
		changed := l.news()
		require.NotEmpty(t, changed)
		last := changed[len(changed)-1].Drive
		assert.Equal(t, []any{drive.Running.String(), 2, runsOn(drive.Running, false, 1.5)}, []any{last.State, last.Take, last.RunsOn})

		d.beats(beatEvery)
		beats := l.news()
		require.Len(t, beats, 1)
		assert.Equal(t, 2, beats[0].Beat)

		d.end()
		over := l.news()
		require.NotEmpty(t, over)
		assert.False(t, over[len(over)-1].Drive.Open)
		assert.Equal(t, "quit", over[len(over)-1].Drive.Ended)
		l.end()
	})
}

// A page that goes is told nothing more, and wakes nobody.
func TestAPageThatGoesIsNotTold(t *testing.T) {
	driven(t, func(d driver) {
		first, second := d.listens(), d.listens()
		first.news()
		second.news()
		first.end()
		synctest.Wait()
		assert.Len(t, d.s.hub.wakes, 1)
		d.s.stage.Enter(drive.Running)
		assert.NotEmpty(t, second.news())
		assert.Empty(t, first.news())
		second.end()
		synctest.Wait()
		assert.Empty(t, d.s.hub.wakes)
		time.Sleep(2 * beatEvery)
		assert.Empty(t, second.news())
	})
}

// It is asked as nothing else: what it takes no notice of is refused.
func TestWatchingTakesNothing(t *testing.T) {
	s, _ := opened(t)
	w := posted(s, "/api/drive/watch", map[string]any{"revision": "1"})
	assert.Equal(t, http.StatusBadRequest, w.Code)
}
