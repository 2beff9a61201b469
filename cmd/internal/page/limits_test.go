package page

import (
	"bufio"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// hasty are limits that a test reaches at once, and patience is what it waits for what
// comes at once on a machine with other things to do.
var hasty = limits{head: 100 * time.Millisecond, body: 100 * time.Millisecond, reader: 100 * time.Millisecond, idle: 100 * time.Millisecond, connections: 4, questions: 2}

const patience = 20 * time.Second

// hastily serves under limits on this machine, for as long as a test lasts.
func hastily(t *testing.T, l limits, h http.HandlerFunc) (dial func() net.Conn) {
	t.Helper()
	listens, err := net.Listen("tcp4", net.JoinHostPort(loopback, "0"))
	require.NoError(t, err)
	s := l.server(l.around(h))
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(l.doorway(listens)) }()
	t.Cleanup(func() {
		assert.NoError(t, s.Close())
		assert.ErrorIs(t, <-ended, http.ErrServerClosed)
	})
	return func() net.Conn {
		c, err := net.Dial("tcp4", listens.Addr().String())
		require.NoError(t, err)
		require.NoError(t, c.SetDeadline(time.Now().Add(patience)))
		t.Cleanup(func() { _ = c.Close() })
		return c
	}
}

func say(t *testing.T, c net.Conn, text string) {
	t.Helper()
	_, err := io.WriteString(c, text)
	require.NoError(t, err)
}

// toldOn reads one answer.
func toldOn(t *testing.T, c net.Conn) (status int, body string) {
	t.Helper()
	answer, err := http.ReadResponse(bufio.NewReader(c), nil)
	require.NoError(t, err)
	data, err := io.ReadAll(answer.Body)
	require.NoError(t, err)
	return answer.StatusCode, string(data)
}

// asks answers a question as the page does.
func asks(w http.ResponseWriter, r *http.Request) {
	answers(func(q struct{ Text string }) (any, error) { return len(q.Text), nil })(w, r)
}

const question10 = "POST /api/plan HTTP/1.1\r\nHost: x\r\nContent-Length: 10\r\n\r\n"

// Who sends the head of a request or a question byte by byte is not waited for.
func TestSlowQuestionsAreLetGoOf(t *testing.T) {
	dial := hastily(t, hasty, asks)
	for name, sent := range map[string]string{"nothing": "", "half a head": "GET / HTTP/1.1\r\nHost: x\r\nA: "} {
		t.Run(name, func(t *testing.T) {
			c := dial()
			say(t, c, sent)
			data, err := io.ReadAll(c)
			require.NoError(t, err, "it is closed")
			assert.Empty(t, string(data))
		})
	}
	for name, sent := range map[string]string{
		"half a question":  question10 + `{"T`,
		"half in chunks":   "POST /api/plan HTTP/1.1\r\nHost: x\r\nTransfer-Encoding: chunked\r\n\r\n4\r\n{\"Te\r\n",
		"half, and a stop": strings.Replace(question10, "plan", "drive/do", 1) + `{"T`,
	} {
		t.Run(name, func(t *testing.T) {
			c := dial()
			say(t, c, sent)
			status, body := toldOn(t, c)
			assert.Equal(t, http.StatusRequestTimeout, status)
			assert.Contains(t, body, "the question did not come to its end in time")
			_, err := c.Read(make([]byte, 1))
			assert.ErrorIs(t, err, io.EOF, "and the connection is closed")
		})
	}
}

// A question that has come in time may take longer to be answered than one may to come,
// and a connection that is used again begins anew.
func TestAnswersMayTakeTheirTime(t *testing.T) {
	dial := hastily(t, hasty, func(w http.ResponseWriter, r *http.Request) {
		if !ask(w, r, &struct{ Text string }{}) {
			return
		}
		select {
		case <-r.Context().Done():
			return // it would be taken for gone
		case <-time.After(3 * hasty.body):
		}
		reply(w, http.StatusOK, "answered")
	})
	c := dial()
	for range 2 {
		say(t, c, question10+"{        }")
		status, body := toldOn(t, c)
		assert.Equal(t, http.StatusOK, status)
		assert.Contains(t, body, "answered")
	}
}

// What nobody reads is not written for ever; what is read late is.
func TestReadersThatHangAreLetGoOf(t *testing.T) {
	ended := make(chan error, 1)
	dial := hastily(t, hasty, func(w http.ResponseWriter, _ *http.Request) {
		piece := make([]byte, 1<<16)
		for {
			if _, err := w.Write(piece); err != nil {
				ended <- err
				return
			}
		}
	})
	say(t, dial(), "GET /api/watch HTTP/1.1\r\nHost: x\r\n\r\n")
	select {
	case err := <-ended:
		assert.ErrorContains(t, err, "timeout")
	case <-time.After(patience):
		t.Fatal("it is written for ever")
	}
}

// More at once than there is room for is told so, and there is room again when some have
// gone. What drives a rig always finds some.
func TestThereIsRoomForSoManyQuestions(t *testing.T) {
	go1, began := make(chan struct{}), make(chan string, 9)
	l := hasty
	l.connections = 9
	dial := hastily(t, l, func(w http.ResponseWriter, r *http.Request) {
		began <- r.URL.Path
		<-go1
		reply(w, http.StatusOK, "answered")
	})
	ask := func(path string) net.Conn {
		c := dial()
		say(t, c, "GET "+path+" HTTP/1.1\r\nHost: x\r\n\r\n")
		return c
	}
	var waiting []net.Conn
	for range l.questions {
		waiting = append(waiting, ask("/api/plan"))
		<-began
	}
	status, body := toldOn(t, ask("/api/plan"))
	assert.Equal(t, http.StatusServiceUnavailable, status)
	assert.Contains(t, body, "no room for another question")
	for _, path := range []string{"/api/drive/do", "/index.html"} {
		waiting = append(waiting, ask(path))
		assert.Equal(t, path, <-began)
	}
	close(go1)
	for _, c := range waiting {
		status, _ := toldOn(t, c)
		assert.Equal(t, http.StatusOK, status)
	}
	status, _ = toldOn(t, ask("/api/plan"))
	assert.Equal(t, http.StatusOK, status)
}

func TestThereIsRoomForSoManyConnections(t *testing.T) {
	l := hasty
	l.head, l.idle = patience, patience
	dial := hastily(t, l, asks)
	var in []net.Conn
	for range l.connections {
		c := dial()
		say(t, c, question10+"{        }")
		status, _ := toldOn(t, c)
		require.Equal(t, http.StatusOK, status)
		in = append(in, c)
	}
	status, body := toldOn(t, dial())
	assert.Equal(t, http.StatusServiceUnavailable, status)
	assert.Contains(t, body, "no room for another question")
	require.NoError(t, in[0].Close())
	require.Eventually(t, func() bool {
		c := dial()
		defer func() { _ = c.Close() }()
		_, _ = fmt.Fprint(c, question10+"{        }") // it may be turned away meanwhile
		answer, err := http.ReadResponse(bufio.NewReader(c), nil)
		return err == nil && answer.StatusCode == http.StatusOK
	}, patience, 5*time.Millisecond, "one has gone")
}

// The head of a request has its bound too.
func TestALongHeadIsRefused(t *testing.T) {
	dial := hastily(t, hasty, asks)
	c := dial()
	_, _ = fmt.Fprintf(c, "GET / HTTP/1.1\r\nHost: x\r\nCookie: %s\r\n\r\n", strings.Repeat("x", maxHead+4096)) // it is closed meanwhile
	answer, err := http.ReadResponse(bufio.NewReader(c), nil)
	require.NoError(t, err)
	assert.Equal(t, http.StatusRequestHeaderFieldsTooLarge, answer.StatusCode)
}
