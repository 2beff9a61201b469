// Package fake is a decoder for tests, which need none installed: the test binary run again,
// with the arguments that ffmpeg and ffprobe get. It holds helpers of tests alone.
package fake

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// Decoder is how one behaves.
type Decoder struct {
	Probe  string // what it says of a file, as ffprobe's JSON; "" fails
	Head   string // the first line of what it gives; "" gives nothing
	Size   int    // bytes of a frame
	Frames int    // that it gives; frame k is of bytes of Value+k
	Value  int
	Part   int    // bytes of one more
	Words  string // what it says as it ends
	Code   int    // with which it ends
	Old    bool   // it does not know fps_mode
	Hangs  bool   // it does not end
	Floods bool   // it goes on with what is no frame
}

// Width and Height are the frames of Good.
const (
	Width  = 6
	Height = 4
)

// Good is one that gives so many frames of a film at 24000/1001 a second.
func Good(frames int) Decoder {
	return Decoder{
		Probe: fmt.Sprintf(`{"streams":[{"width":%d,"height":%d,"pix_fmt":"yuv420p","color_range":"pc","r_frame_rate":"24000/1001","avg_frame_rate":"24000/1001","nb_frames":"%d","tags":{"timecode":"01:02:03:04"}}],"format":{}}`, Width, Height, frames),
		Head:  fmt.Sprintf("YUV4MPEG2 W%d H%d F24000:1001 Ip A1:1 Cmono", Width, Height),
		Size:  Width * Height, Frames: frames,
	}
}

// behaviour is the variable by which a test tells its own binary how to behave.
const behaviour = "SEAMRAIL_TEST_DECODER"

// Lookup finds this decoder, whatever is asked for, in the environment that it sets.
func (d Decoder) Lookup(t testing.TB) func(string) (string, error) {
	t.Helper()
	text, err := json.Marshal(d)
	require.NoError(t, err)
	t.Setenv(behaviour, string(text))
	t.Setenv("GORACE", "atexit_sleep_ms=0") // or each run of it takes a second where races are looked for
	return func(string) (string, error) { return os.Executable() }
}

// Main is to be called first by the TestMain of whoever uses one.
func Main() {
	text := os.Getenv(behaviour)
	if text == "" {
		return
	}
	var d Decoder
	if err := json.Unmarshal([]byte(text), &d); err != nil {
		panic(err)
	}
	os.Exit(d.run(os.Args[1:]))
}

// run behaves so, and is the code with which to exit.
func (d Decoder) run(args []string) int {
	at := slices.Index(args, "-i")
	file, named := strings.CutPrefix(args[at+1], "file:")
	if _, err := os.Stat(file); err != nil || !named {
		return say("no such file "+args[at+1], 1)
	}
	if slices.Contains(args, "-show_entries") {
		return d.probe()
	}
	if d.Old && slices.Contains(args, "-fps_mode") {
		return say("Unrecognized option 'fps_mode'.", 1)
	}
	d.play(os.Stdout)
	return say(d.Words, d.Code)
}

func (d Decoder) probe() int {
	if d.Probe == "" {
		return say("Invalid data found when processing input", 1)
	}
	fmt.Println(d.Probe)
	return 0
}

func say(words string, code int) int {
	fmt.Fprint(os.Stderr, words)
	return code
}

// play gives the frames, and does not end where it is not to.
func (d Decoder) play(to io.Writer) {
	if d.Head != "" {
		fmt.Fprintln(to, d.Head)
	}
	for k := range d.Frames {
		fmt.Fprintln(to, "FRAME")
		_, _ = to.Write(bytes.Repeat([]byte{byte(d.Value + k)}, d.Size))
	}
	if d.Part > 0 {
		fmt.Fprintln(to, "FRAME")
		_, _ = to.Write(make([]byte, d.Part))
	}
	for d.Floods {
		if _, err := to.Write(make([]byte, 1<<16)); err != nil {
			return
		}
	}
	if d.Hangs {
		time.Sleep(time.Hour) // it is killed long before
	}
}
