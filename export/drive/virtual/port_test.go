package virtual_test

import (
	"bufio"
	"io"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"seamrail/export/drive/virtual"
)

// stepClock goes on by itself whenever someone waits.
type stepClock struct {
	mu  sync.Mutex
	now time.Time
}

func (c *stepClock) Now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.now
}

func (c *stepClock) After(d time.Duration) <-chan time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.now = c.now.Add(d)
	out := make(chan time.Time, 1)
	out <- c.now
	return out
}

func TestPortIsASerialPort(t *testing.T) {
	o := bench()
	o.Baud = 115200
	c := &stepClock{now: at(0)}
	p := virtual.NewPortOn(virtual.New(o), 1, c)
	n, err := p.Write([]byte("G94\nG1 X10 F600\nG4 P0.1\n"))
	require.NoError(t, err)
	assert.Equal(t, 24, n)
	lines := bufio.NewReader(p)
	for range 3 {
		line, err := lines.ReadString('\n')
		require.NoError(t, err)
		assert.Equal(t, "ok\r\n", line)
	}
	assert.InDelta(t, 1+10./500+0.1, c.Now().Sub(at(0)).Seconds(), 0.01)
	p.See(func(r *virtual.Rig) { assert.Equal(t, []float64{10}, r.Place()) })
	require.NoError(t, p.Close())
	_, err = p.Read(make([]byte, 1))
	assert.Equal(t, io.EOF, err)
	_, err = p.Write([]byte("?"))
	assert.Equal(t, io.ErrClosedPipe, err)
	require.NoError(t, p.Close(), "twice does no harm")
}

func TestPortRunsFaster(t *testing.T) {
	c := &stepClock{now: at(0)}
	p := virtual.NewPortOn(virtual.New(bench()), 100, c)
	p.Write([]byte("G4 P10\n"))
	_, err := p.Read(make([]byte, 8))
	require.NoError(t, err)
	assert.InDelta(t, 0.1, c.Now().Sub(at(0)).Seconds(), 1e-6)
	assert.Panics(t, func() { virtual.NewPort(virtual.New(bench()), 0) })
}

// A Read that waits for ever returns when the port is closed, or written to.
func TestPortReadIsWoken(t *testing.T) {
	p := virtual.NewPort(virtual.New(bench()), 1)
	got := make(chan error)
	go func() {
		buf := make([]byte, 64)
		n, err := p.Read(buf)
		if err == nil && string(buf[:n]) != "ok\r\n" {
			err = io.ErrUnexpectedEOF
		}
		got <- err
		_, err = p.Read(buf)
		got <- err
	}()
	_, err := p.Write([]byte("G94\n"))
	require.NoError(t, err)
	require.NoError(t, <-got)
	require.NoError(t, p.Close())
	assert.Equal(t, io.EOF, <-got)
}

func TestPortTellsThatTheWireIsGone(t *testing.T) {
	o := bench()
	o.Faults = []virtual.Fault{{Kind: virtual.Vanish, At: time.Second}}
	p := virtual.NewPortOn(virtual.New(o), 1, &stepClock{now: at(0)})
	_, err := p.Read(make([]byte, 1))
	assert.ErrorIs(t, err, virtual.ErrGone)
}
