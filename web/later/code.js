// An instrument's text as a picture of squares, and back from a camera or from a picture file. Loaded when somebody asks for it, never before.
import { encodeQR, decodeQR } from "./qr/qr.min.js";

const sharpest = 1600;                  // more pixels than that on the long side only cost time
const between = 120;                    // milliseconds from look to look, so that the phone stays cool
const sizes = [sharpest, 900, 500];     // a large photo is often read better when it is smaller

// drawn gives the modules of the code row by row, dark ones as 1, rows parted by a slash: of the smallest version at level M, or at L where that
// one would have more than 69 modules a side.
export function drawn(text) {
  const draw = ecc => encodeQR(text, "raw", { ecc, encoding: "alphanumeric", border: 1 }).slice(1, -1).map(row => row.slice(1, -1));
  let rows = draw("medium");
  if (rows.length > 69) rows = draw("low");
  return rows.map(row => row.map(Number).join("")).join("/");
}

const canvas = document.createElement("canvas");

// look reads what is drawn from the source, made no larger than most a side; "" when there is no code in it.
function look(source, width, height, most) {
  const scale = Math.min(1, most / Math.max(width, height));
  canvas.width = Math.max(1, Math.round(width * scale));
  canvas.height = Math.max(1, Math.round(height * scale));
  const pen = canvas.getContext("2d", { willReadFrequently: true });
  pen.fillStyle = "white"; // under what is transparent
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.drawImage(source, 0, 0, canvas.width, canvas.height);
  try {
    return decodeQR(pen.getImageData(0, 0, canvas.width, canvas.height), { timeLimit: 80 });
  } catch {
    return "";
  }
}

// picture reads a code from the file that was chosen in a field: { text }, or { fail }: unreadable or none.
export async function picture(id) {
  const field = document.getElementById(id), file = field && field.files[0];
  if (!file) return { fail: "stopped" };
  let bitmap;
  try {
    bitmap = await createImageBitmap(file);
  } catch {
    return { fail: "unreadable" };
  } finally {
    field.value = ""; // so that the same file can be chosen again
  }
  try {
    for (const most of sizes) {
      const text = look(bitmap, bitmap.width, bitmap.height, most);
      if (text) return { text };
    }
    return { fail: "none" };
  } finally {
    bitmap.close();
  }
}

const refusals = { NotAllowedError: "refused", SecurityError: "refused", NotFoundError: "missing", OverconstrainedError: "missing" };

// camera shows the camera in a video element and looks for a code until there is one: { text }; or until the element is gone or hidden, or the
// page is: { fail: "stopped" }; or tells why there is no picture: refused, missing or busy. The camera is off when it ends.
export async function camera(id) {
  const video = document.getElementById(id);
  const shown = () => video && video.isConnected && !video.hidden && document.visibilityState === "visible";
  if (!navigator.mediaDevices || !navigator.mediaDevices.getUserMedia) return { fail: "missing" };
  let stream;
  try {
    stream = await navigator.mediaDevices.getUserMedia({
      audio: false, video: { facingMode: "environment", width: { ideal: 1920 }, height: { ideal: 1080 } },
    });
  } catch (failure) {
    return { fail: refusals[failure.name] || "busy" };
  }
  const off = () => { for (const track of stream.getTracks()) track.stop(); };
  document.addEventListener("visibilitychange", off); // at once, not at the next look
  try {
    if (!shown()) return { fail: "stopped" };
    video.srcObject = stream;
    await video.play().catch(() => { });
    while (shown() && stream.active) {
      if (video.videoWidth > 0) {
        const text = look(video, video.videoWidth, video.videoHeight, sharpest);
        if (text) return { text };
      }
      await new Promise(done => setTimeout(done, between));
    }
    return { fail: "stopped" };
  } finally {
    document.removeEventListener("visibilitychange", off);
    off();
    if (video) video.srcObject = null;
  }
}
