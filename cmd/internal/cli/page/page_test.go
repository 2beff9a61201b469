package page

import (
	"bytes"
	"net/http"
	"os"
	"regexp"
	"runtime"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/cli/command"
)

// Ctrl-C ends the page; the address that was printed served it until then.
func TestCtrlCEndsThePage(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("a process cannot signal itself there")
	}
	dir := t.TempDir()
	t.Chdir(dir)
	var out bytes.Buffer
	status := make(chan int, 1)
	o := &Options{Streams: command.Streams{Out: &out}, Browse: func(address string) error {
		go func() {
			where, _, _ := strings.Cut(address, "#")
			answer, err := http.Get(where)
			if err == nil {
				status <- answer.StatusCode
				_ = answer.Body.Close()
			}
			self, _ := os.FindProcess(os.Getpid())
			_ = self.Signal(syscall.SIGINT)
		}()
		return nil
	}}
	require.NoError(t, pageRun(o))
	assert.Equal(t, http.StatusOK, <-status)
	assert.Regexp(t, `^The page is at http://127\.0\.0\.1:\d+/#once=[A-Za-z0-9_-]{43}\nCtrl-C ends it\.\n$`, out.String())
}

func TestWithoutABrowserTheAddressIsSaid(t *testing.T) {
	var out bytes.Buffer
	o := &Options{Streams: command.Streams{Out: &out}, Browse: func(once string) error {
		assert.NotContains(t, once, "once=x", "a command line can be read by others")
		return os.ErrNotExist
	}}
	require.NoError(t, o.tell("http://127.0.0.1:1/#once=x", "http://127.0.0.1:1/#once=y"))
	assert.Contains(t, out.String(), "No browser could be opened from here; open that address in one.")
	out.Reset()
	o.Closed = true
	o.Browse = func(string) error { t.Error("it was told not to"); return nil }
	require.NoError(t, o.tell("http://127.0.0.1:1/#once=x", "http://127.0.0.1:1/#once=y"))
}

// Where the address that was printed has been opened, the next is printed.
func TestTheNextAddressIsPrinted(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("a process cannot signal itself there")
	}
	t.Chdir(t.TempDir())
	var out bytes.Buffer
	address := regexp.MustCompile(`(http://[0-9.:]+)/#once=(\S+)`)
	o := &Options{Streams: command.Streams{Out: &out}, Browse: func(string) error {
		go func() {
			defer func() {
				self, _ := os.FindProcess(os.Getpid())
				_ = self.Signal(syscall.SIGINT)
			}()
			at := address.FindStringSubmatch(out.String())
			r, _ := http.NewRequest(http.MethodPost, at[1]+"/api/key", nil)
			r.Header.Set("Seamrail-Key", at[2])
			answer, err := http.DefaultClient.Do(r)
			if assert.NoError(t, err) {
				assert.Equal(t, http.StatusOK, answer.StatusCode)
				_ = answer.Body.Close()
			}
		}()
		return nil
	}}
	require.NoError(t, pageRun(o))
	found := address.FindAllStringSubmatch(out.String(), -1)
	require.Len(t, found, 2)
	assert.NotEqual(t, found[0][2], found[1][2])
	assert.Contains(t, out.String(), "That address has been opened, and opens nothing any more.")
}
