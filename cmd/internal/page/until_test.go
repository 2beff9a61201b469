package page

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"runtime"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/starter"
	"seamrail/cmd/internal/starter/kinds"
	"seamrail/motion/spec/rig"
)

// longQuestions take seconds and more when nobody gives up: the demo's loop looked for
// among a hundred thousand frames under every law, loops that suit two stands, the lines
// of a board for a shot of many keys, a hundred keys more.
func longQuestions(t *testing.T, d *desk) map[string]func(context.Context) error {
	heavy, _ := heavyShot(t)
	flags := map[string]string{"between": "1 s,4000 s"}
	return map[string]func(context.Context) error{
		"fit": func(ctx context.Context) error {
			_, err := d.fit(ctx, asking{Text: string(starter.Shot()), Flags: flags})
			return err
		},
		"spin": func(ctx context.Context) error {
			_, err := d.spin(ctx, asking{Text: heavy, Flags: map[string]string{"between": "1 s,200000 s"}})
			return err
		},
		"kind": func(ctx context.Context) error {
			_, err := d.kind(ctx, startQuestion{Controller: rig.Buffered.String(), Kind: "pass", Answers: kinds.Answers{"loop": "30 s"}, Fully: true})
			return err
		},
		"edits": func(ctx context.Context) error {
			_, err := d.plan(ctx, question{Text: heavy, Edits: slices.Repeat([]Edit{{Do: doAdd, Path: "axis.rail.keys"}}, mostItems)})
			return err
		},
		"controller": func(ctx context.Context) error {
			_, err := d.controller(ctx, controllerQuestion{heavy})
			return err
		},
		"export": func(ctx context.Context) error {
			_, _, err := d.written(ctx, heavy, "gcode")
			return err
		},
		"make": func(ctx context.Context) error {
			_, err := d.make(ctx, makeQuestion{heavy, "loop"})
			return err
		},
	}
}

// letsGo is how long after its end a question may go on: it listens at least every some
// tenths of a second, on a busy machine later.
const letsGo = 10 * time.Second

// Whatever takes long ends with whoever asked.
func TestWorkEndsWithWhoAsked(t *testing.T) {
	d := heavilyBrowsed(t)
	before := runtime.NumGoroutine() + 1 // Eventually looks from one of its own
	for name, ask := range longQuestions(t, d) {
		ctx, giveUp := context.WithTimeout(t.Context(), 50*time.Millisecond)
		began := time.Now()
		err := ask(ctx)
		giveUp()
		require.ErrorIs(t, err, context.DeadlineExceeded, name)
		assert.Less(t, time.Since(began), letsGo, name)
	}
	gone, giveUp := context.WithCancel(t.Context())
	giveUp()
	_, err := d.card(gone, struct{}{})
	require.ErrorIs(t, err, context.Canceled, "a card of a first screen that has been left")
	assert.Eventually(t, func() bool { return runtime.NumGoroutine() <= before }, pageSoon, 10*time.Millisecond)
}

// So it does over the wire: a page that gives up, or is closed, ends its connection. Both
// questions take far longer than they are waited for.
func TestAClientThatGoesStopsTheWork(t *testing.T) {
	b := browsed(t)
	before := runtime.NumGoroutine() + 1 // Eventually looks from one of its own
	for _, q := range []struct {
		what string
		body m
	}{
		{"fit", m{"text": b.text, "flags": m{"between": "1 s,4000 s"}}},
		{"preview", m{"text": b.text, "width": 1920}},
	} {
		ctx, giveUp := context.WithTimeout(t.Context(), 100*time.Millisecond)
		data, err := json.Marshal(q.body)
		require.NoError(t, err)
		r, err := http.NewRequestWithContext(ctx, http.MethodPost, b.address+"/api/"+q.what, bytes.NewReader(data))
		require.NoError(t, err)
		r.Header.Set("Seamrail-Key", b.key)
		answer, err := http.DefaultClient.Do(r)
		if err == nil {
			_, err = io.Copy(io.Discard, answer.Body)
			require.NoError(t, answer.Body.Close())
		}
		giveUp()
		require.ErrorIs(t, err, context.DeadlineExceeded, "%s was at work", q.what)
		http.DefaultClient.CloseIdleConnections()
		assert.Eventually(t, func() bool { return runtime.NumGoroutine() <= before }, pageSoon, 10*time.Millisecond, q.what)
	}
}
