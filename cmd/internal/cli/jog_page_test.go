//go:build linux

package cli_test

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"os"
	"os/exec"
	"regexp"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/motion/plan/sample/many"
)

// browser is a page as the program that serves it sees it.
type browser struct {
	t         *testing.T
	site, key string
}

// asks asks a question of the program, until the context ends.
func (b *browser) asks(ctx context.Context, question string, body map[string]any) (map[string]any, error) {
	text, err := json.Marshal(body)
	require.NoError(b.t, err)
	r, err := http.NewRequestWithContext(ctx, http.MethodPost, b.site+"/api/"+question, bytes.NewReader(text))
	require.NoError(b.t, err)
	r.Header.Set("Seamrail-Key", b.key)
	r.Header.Set("Content-Type", "application/json")
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		return nil, err
	}
	defer func() { _ = answer.Body.Close() }()
	said, err := io.ReadAll(answer.Body)
	if err != nil {
		return nil, err
	}
	var out map[string]any
	require.NoError(b.t, json.Unmarshal(said, &out), "%s: %s", question, said)
	return out, nil
}

// asksUntil asks again and again until the answer says that it is so.
func (b *browser) asksUntil(question string, body map[string]any) {
	b.t.Helper()
	last := map[string]any{}
	require.Eventually(b.t, func() bool {
		last, _ = b.asks(b.t.Context(), question, body)
		return last["ok"] == true
	}, patience, 20*time.Millisecond, "%s %v: %v", question, body, last)
}

var pageAddress = regexp.MustCompile(`(http://127\.0\.0\.1:\d+)/#once=(\S+)`)

// A page that is killed while it holds an axis, and its program with it or not: the last
// byte that moves anything is before that, and the rig is told within 20 ms, or what a busy
// computer takes beyond.
func TestWhateverEndsAJogOfThePage(t *testing.T) {
	many.Long(t)
	for name, killsProgram := range map[string]bool{"page": false, "program": true} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			x, port := wired(t, "buffered")
			x.cmd = exec.Command("seamrail", "page", x.shot, "--no-browser")
			x.runs(false)
			x.until("/#once=")
			x.until("\n")
			found := pageAddress.FindStringSubmatch(x.seen.String())
			require.NotNil(t, found, x.seen.String())
			x.drain()
			b := &browser{t, found[1], found[2]}
			given, err := b.asks(t.Context(), "key", nil) // with the word in place of the key
			require.NoError(t, err)
			b.key, _ = given["key"].(string)
			text, err := os.ReadFile(x.shot)
			require.NoError(t, err)
			run, err := b.asks(t.Context(), "drive/open", map[string]any{"text": string(text), "port": port})
			require.NoError(t, err)
			claim := run["claim"]
			require.NotEmpty(t, claim, "%v", run)
			ask := func(request string, more map[string]any) map[string]any {
				body := map[string]any{"claim": claim, "request": request, "text": string(text)}
				for k, v := range more {
					body[k] = v
				}
				return body
			}
			there, killed := context.WithCancel(t.Context())
			defer killed()
			go func() { _, _ = b.asks(there, "drive/stay", map[string]any{"claim": claim}) }()
			go func() {
				for there.Err() == nil {
					_, _ = b.asks(there, "drive/beat", map[string]any{"claim": claim})
					time.Sleep(200 * time.Millisecond)
				}
			}()
			b.asksUntil("drive/do", ask("here", nil))
			hold := ask("jog-hold", map[string]any{"axis": 0, "speed": 20, "press": 1})
			b.asksUntil("drive/do", hold)
			for end := time.Now().Add(600 * time.Millisecond); time.Now().Before(end); time.Sleep(30 * time.Millisecond) {
				_, _ = b.asks(there, "drive/do", hold)
			}
			require.NotZero(t, x.spans(), "it moves")
			from := time.Now()
			if killsProgram {
				require.NoError(t, x.cmd.Process.Kill())
			} else {
				killed()
			}
			x.rests()
			told := string(x.tap.since(from.Add(toldByPage + onBusy)))
			assert.NotContains(t, told, "$J=", "nothing moves it any more")
			ends := "\x85"
			if killsProgram {
				ends = string(bytes.TrimRight(x.words.Hold, "\x00")) // of the second process
			}
			at, ok := x.tap.when([]byte(ends), from)
			require.True(t, ok, "%q", x.tap.since(from))
			t.Logf("told after %v", at.Sub(from).Round(time.Millisecond/10))
			assert.Less(t, at.Sub(from), toldByPage+onBusy)
		})
	}
}

// toldByPage is how soon a page that is gone is noticed, beside what a busy computer takes.
const toldByPage = 20 * time.Millisecond
