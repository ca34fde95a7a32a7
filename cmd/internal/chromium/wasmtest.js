// Runs a Go test binary in a page and keeps what it prints until it is asked for.
'use strict';

let printed = '';
let ended = false;
let status = 0;

function takeOutput() {
  const text = printed;
  printed = '';
  return { text, ended, status };
}

function stopWith(code, text) {
  printed += text;
  status = code;
  ended = true;
}

const missing = () => Object.assign(new Error('no files in a page'), { code: 'ENOSYS' });
const refuse = (...args) => args.at(-1)(missing());
const decoder = new TextDecoder();

globalThis.fs = new Proxy({
  constants: { O_WRONLY: -1, O_RDWR: -1, O_CREAT: -1, O_TRUNC: -1, O_APPEND: -1, O_EXCL: -1, O_DIRECTORY: -1 },
  writeSync(fd, bytes) {
    printed += decoder.decode(bytes, { stream: true });
    return bytes.length;
  },
  write(fd, bytes, offset, length, position, callback) {
    callback(null, this.writeSync(fd, bytes.subarray(offset, offset + length)));
  },
  fsync(fd, callback) { callback(null); },
}, { get: (target, name) => target[name] ?? refuse });

globalThis.process = {
  getuid: () => -1, getgid: () => -1, geteuid: () => -1, getegid: () => -1,
  getgroups() { throw missing(); },
  umask() { throw missing(); },
  chdir() { throw missing(); },
  cwd: () => '/',
  pid: -1,
  ppid: -1,
};

async function main() {
  const go = new Go();
  go.argv = TEST_ARGS;
  let code = 0;
  go.exit = (given) => { code = given; };
  const program = await WebAssembly.instantiateStreaming(fetch('test.wasm'), go.importObject);
  await go.run(program.instance);
  stopWith(code, '');
}

// What test code leaves uncaught is worth reading, but it is the tests that judge.
addEventListener('error', (event) => { printed += `uncaught: ${event.message}\n`; });
addEventListener('unhandledrejection', (event) => { printed += `uncaught: ${event.reason}\n`; });

const script = document.createElement('script');
script.src = 'wasm_exec.js';
script.onload = () => main().catch((fault) => stopWith(2, `${fault.stack || fault}\n`));
document.head.append(script);
