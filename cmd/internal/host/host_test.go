package host_test

import (
	"errors"
	"io"
	"runtime"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/cmd/internal/host"
	"seamrail/export/drive"
)

// soon is far more than any of this takes on a busy machine.
const soon = 10 * time.Second

// fakePort is a wire of software: what the test feeds is read, what is written
// is kept once the test opens the gate.
type fakePort struct {
	in     *io.PipeReader
	feed   *io.PipeWriter
	gate   chan struct{}
	closed chan struct{}
	once   sync.Once

	mu      sync.Mutex
	written []byte
	broken  error
}

// maxAtOnce makes the wire take long writes in parts.
const maxAtOnce = 10

func newFakePort() *fakePort {
	in, feed := io.Pipe()
	return &fakePort{in: in, feed: feed, gate: make(chan struct{}), closed: make(chan struct{})}
}

func (p *fakePort) Read(b []byte) (int, error) { return p.in.Read(b) }

func (p *fakePort) Write(b []byte) (int, error) {
	select {
	case <-p.gate:
	case <-p.closed:
		return 0, errors.New("closed")
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.broken != nil {
		return 0, p.broken
	}
	n := min(len(b), maxAtOnce)
	p.written = append(p.written, b[:n]...)
	return n, nil
}

func (p *fakePort) got() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return string(p.written)
}

func (p *fakePort) Close() error {
	p.once.Do(func() { close(p.closed); _ = p.in.Close() })
	return nil
}

// world returns a world on a fake port that is closed with the test, after
// which no goroutine may be left.
func world(t *testing.T, hurried, asks chan drive.Request) (*host.World, *fakePort) {
	t.Helper()
	before := runtime.NumGoroutine()
	p := newFakePort()
	w := host.New(p, 0, hurried, asks)
	t.Cleanup(func() {
		assert.NoError(t, w.Close())
		assert.NoError(t, w.Close(), "a second time does nothing")
		for end := time.Now().Add(soon); runtime.NumGoroutine() > before && time.Now().Before(end); {
			runtime.Gosched()
		}
		assert.LessOrEqual(t, runtime.NumGoroutine(), before, "goroutines are left")
	})
	return w, p
}

func TestBytesComeInOrderAndThenTheEnd(t *testing.T) {
	w, p := world(t, nil, nil)
	close(p.gate)
	go func() {
		_, _ = p.feed.Write([]byte("ok\r\n"))
		_, _ = p.feed.Write([]byte("<Idle"))
		_ = p.feed.CloseWithError(errors.New("unplugged"))
	}()
	until := w.Now().Add(soon)
	e := w.Wait(until)
	assert.Equal(t, drive.Heard, e.Kind)
	assert.Equal(t, "ok\r\n", string(e.Bytes))
	assert.Equal(t, "<Idle", string(w.Wait(until).Bytes))
	e = w.Wait(until)
	assert.Equal(t, drive.Gone, e.Kind)
	assert.EqualError(t, e.Err, "unplugged")
	_, err := w.Write([]byte("x"))
	assert.EqualError(t, err, "unplugged", "a wire that is gone takes nothing")
}

func TestNothingComesAtItsTimeAndNotBefore(t *testing.T) {
	w, p := world(t, nil, nil)
	close(p.gate)
	until := w.Now().Add(5 * time.Millisecond)
	assert.Equal(t, drive.Nothing, w.Wait(until).Kind)
	assert.False(t, w.Now().Before(until))
}

// Haste goes before requests, and both before bytes.
func TestAStopGoesFirst(t *testing.T) {
	hurried, asks := make(chan drive.Request, 1), make(chan drive.Request, 1)
	w, p := world(t, hurried, asks)
	close(p.gate)
	_, _ = p.feed.Write([]byte("ok\n"))
	asks <- drive.Request{Kind: drive.Finish}
	hurried <- drive.Request{Kind: drive.Stop}
	var got []drive.EventKind
	var kinds []drive.RequestKind
	for range 3 {
		e := w.Wait(w.Now().Add(soon))
		got = append(got, e.Kind)
		kinds = append(kinds, e.Request.Kind)
	}
	assert.Equal(t, []drive.EventKind{drive.Asked, drive.Asked, drive.Heard}, got)
	assert.Equal(t, []drive.RequestKind{drive.Stop, drive.Finish}, kinds[:2])
}

// A wire that takes nothing makes a short write, not a wait; and all that was
// taken goes out in order.
func TestWriteDoesNotWait(t *testing.T) {
	w, p := world(t, nil, nil)
	const line = "G1 X1.000 F60.0\n"
	want := ""
	for {
		n, err := w.Write([]byte(line))
		require.NoError(t, err)
		want += line[:n]
		if n < len(line) {
			break
		}
	}
	assert.Less(t, len(want), 1000, "little waits for the wire, so that a stop need not")
	close(p.gate)
	assert.Eventually(t, func() bool { return p.got() == want }, soon, time.Millisecond)
	assert.Eventually(t, func() bool { n, err := w.Write([]byte("!")); return err == nil && n == 1 }, soon, time.Millisecond)
	assert.Eventually(t, func() bool { return p.got() == want+"!" }, soon, time.Millisecond)
}

func TestAWireThatBreaksOnAWriteIsGone(t *testing.T) {
	w, p := world(t, nil, nil)
	p.broken = errors.New("no such device")
	close(p.gate)
	_, err := w.Write([]byte("G1\n"))
	require.NoError(t, err)
	e := w.Wait(w.Now().Add(soon))
	assert.Equal(t, drive.Gone, e.Kind)
	assert.EqualError(t, e.Err, "no such device")
}

// Bytes that were taken go out before the port is closed, unless the wire is
// stuck.
func TestCloseSendsTheLastWords(t *testing.T) {
	w, p := world(t, nil, nil)
	_, err := w.Write([]byte("!"))
	require.NoError(t, err)
	time.AfterFunc(10*time.Millisecond, func() { close(p.gate) })
	require.NoError(t, w.Close())
	assert.Equal(t, "!", p.got())
}

func TestCloseDoesNotWaitForAWireThatIsStuck(t *testing.T) {
	w, _ := world(t, nil, nil)
	_, err := w.Write([]byte("!"))
	require.NoError(t, err)
	began := time.Now()
	require.NoError(t, w.Close())
	assert.Less(t, time.Since(began), soon)
}
