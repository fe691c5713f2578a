/**
 * Runs in a page before anything else: `window.played` notes every sentence that the page plays, and the page's
 * microphone hears them, as in a room. With `window.keepCuesSecret` the server is not told that the page speaks.
 */
export const PAGE_SOUND = `
  window.played = [];
  window.keepCuesSecret = false;
  const room = new AudioContext();
  const air = room.createMediaStreamDestination();
  const connect = AudioNode.prototype.connect;
  AudioNode.prototype.connect = function (to, ...more) {
    if (to instanceof GainNode) this.gainBehind = to;
    return connect.call(this, to, ...more);
  };
  const start = AudioBufferSourceNode.prototype.start;
  AudioBufferSourceNode.prototype.start = function (when = 0) {
    if (this.buffer !== null && this.context !== room) {
      const wait = Math.max(0, when - this.context.currentTime);
      const { duration } = this.buffer;
      window.played.push({
        at: performance.now() / 1000 + wait,
        seconds: duration,
        gain: this.gainBehind?.gain.value ?? 1,
      });
      void room.resume();
      const echo = new AudioBufferSourceNode(room, { buffer: this.buffer });
      connect.call(echo, air);
      start.call(echo, room.currentTime + wait);
      const stop = this.stop.bind(this);
      this.stop = () => {
        echo.stop();
        stop();
      };
    }
    start.call(this, when);
  };
  navigator.mediaDevices.getUserMedia = () => Promise.resolve(air.stream);
  const send = WebSocket.prototype.send;
  WebSocket.prototype.send = function (sent) {
    if (window.keepCuesSecret && typeof sent === 'string' && sent.includes('"speaking"')) return;
    send.call(this, sent);
  };
`;
