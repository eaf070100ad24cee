package firefox

import (
	"bufio"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// patience is how long any one condition may take on a slow, busy machine without a graphics card.
const patience = 120 * time.Second

// preferences of the browser's profile: it asks nobody anything, draws without a graphics card, and puts what is
// downloaded into the folder that is filled in.
const preferences = `
user_pref("marionette.port", 0);
user_pref("browser.download.folderList", 2);
user_pref("browser.download.dir", %q);
user_pref("browser.download.useDownloadDir", true);
user_pref("browser.download.alwaysOpenPanel", false);
user_pref("browser.helperApps.neverAsk.saveToDisk", "image/svg+xml,application/json");
user_pref("browser.shell.checkDefaultBrowser", false);
user_pref("browser.aboutwelcome.enabled", false);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
user_pref("app.update.enabled", false);
user_pref("webgl.force-enabled", true);
user_pref("dom.serviceWorkers.testing.enabled", false);
user_pref("toolkit.startup.max_resumed_crashes", -1);
`

// A driver speaks to a browser by Firefox's own remote protocol, Marionette, whose commands are those of the W3C's
// WebDriver: a message is its length, a colon, and [0, number, command, parameters] as JSON.
type driver struct {
	t    *testing.T
	conn net.Conn
	in   *bufio.Reader
	n    int
}

// start opens a screen in memory and a browser with a window on it, and ends both with the test.
func start(t *testing.T, downloads string) *driver {
	t.Helper()
	screen := startScreen(t)
	profile := t.TempDir()
	settings := fmt.Appendf(nil, preferences, downloads)
	if err := os.WriteFile(filepath.Join(profile, "user.js"), settings, 0o644); err != nil {
		t.Fatal(err)
	}

	program, err := exec.LookPath("firefox-esr")
	if err != nil {
		if program, err = exec.LookPath("firefox"); err != nil {
			t.Fatal("there is no Firefox on the PATH: the Debian package firefox-esr brings it " +
				"(./build.sh test installs it where it may)")
		}
	}
	cmd := exec.Command(program, "--marionette", "--no-remote", "--profile", profile, "--width", "1440",
		"--height", "900", "about:blank")
	cmd.Env = append(os.Environ(), "DISPLAY="+screen, "LIBGL_ALWAYS_SOFTWARE=1", "MOZ_CRASHREPORTER_DISABLE=1",
		"HOME="+profile)
	run(t, cmd)
	d := &driver{t: t, conn: connect(t, filepath.Join(profile, "MarionetteActivePort"))}
	t.Cleanup(func() { d.conn.Close() })
	d.in = bufio.NewReader(d.conn)
	if _, err := d.read(); err != nil { // it says who it is
		t.Fatalf("the browser does not answer: %v", err)
	}
	d.do("WebDriver:NewSession", map[string]any{"capabilities": map[string]any{}})
	d.do("WebDriver:SetTimeouts", map[string]any{"script": patience.Milliseconds()})
	return d
}

// startScreen starts an X server that shows its screen to nobody, and returns its name.
func startScreen(t *testing.T) string {
	t.Helper()
	program, err := exec.LookPath("Xvfb")
	if err != nil {
		t.Fatal("there is no Xvfb on the PATH: the Debian package xvfb brings it " +
			"(./build.sh test installs it where it may)")
	}
	from, to, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	defer from.Close()
	cmd := exec.Command(program, "-displayfd", "3", "-screen", "0", "1500x1050x24", "-nolisten", "tcp")
	cmd.ExtraFiles = []*os.File{to}
	run(t, cmd)
	to.Close()
	number, err := bufio.NewReader(from).ReadString('\n')
	if err != nil {
		t.Fatalf("Xvfb does not start: %v", err)
	}
	return ":" + strings.TrimSpace(number)
}

// run starts a program and ends it with the test.
func run(t *testing.T, cmd *exec.Cmd) {
	t.Helper()
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = cmd.Process.Signal(os.Interrupt)
		gone := make(chan struct{})
		go func() {
			_ = cmd.Wait()
			close(gone)
		}()
		select {
		case <-gone:
		case <-time.After(10 * time.Second):
			_ = cmd.Process.Kill()
			<-gone
		}
	})
}

// connect reaches the browser at the port whose number it writes into a file.
func connect(t *testing.T, file string) net.Conn {
	t.Helper()
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(100 * time.Millisecond) {
		port, err := os.ReadFile(file)
		if err != nil || len(port) == 0 {
			continue
		}
		if conn, err := net.Dial("tcp", "127.0.0.1:"+strings.TrimSpace(string(port))); err == nil {
			return conn
		}
	}
	t.Fatalf("the browser cannot be reached after %v", patience)
	return nil
}

// do has the browser carry out a command, and returns what it answers.
func (d *driver) do(command string, parameters any) json.RawMessage {
	d.t.Helper()
	answer, err := d.try(command, parameters)
	if err != nil {
		d.t.Fatalf("%s: %v", command, err)
	}
	return answer
}

func (d *driver) try(command string, parameters any) (json.RawMessage, error) {
	d.n++
	message, err := json.Marshal([]any{0, d.n, command, parameters})
	if err != nil {
		return nil, err
	}
	if _, err := fmt.Fprintf(d.conn, "%d:%s", len(message), message); err != nil {
		return nil, err
	}
	text, err := d.read()
	if err != nil {
		return nil, err
	}
	var answer [4]json.RawMessage // 1, the number, an error or null, the result
	if err := json.Unmarshal(text, &answer); err != nil {
		return nil, fmt.Errorf("%w in %.200s", err, text)
	}
	if string(answer[2]) != "null" {
		return nil, errors.New(string(answer[2][:min(len(answer[2]), 500)]))
	}
	return answer[3], nil
}

// read returns the next message.
func (d *driver) read() ([]byte, error) {
	if err := d.conn.SetReadDeadline(time.Now().Add(2 * patience)); err != nil {
		return nil, err
	}
	length, err := d.in.ReadString(':')
	if err != nil {
		return nil, err
	}
	n, err := strconv.Atoi(strings.TrimSuffix(length, ":"))
	if err != nil {
		return nil, err
	}
	text := make([]byte, n)
	_, err = io.ReadFull(d.in, text)
	return text, err
}
