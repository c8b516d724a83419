// Cards of the example: nine birds of nobody's field guide, and a back with a plain rim.

const WIDTH = 744; // 63 x 88 mm at 300 ppi
const HEIGHT = 1039;

interface Bird {
  name: string;
  back: string;
  belly: string;
  wing: string;
  beak: number;
  round: number;
}

const BIRDS: Bird[] = [
  { name: "Robin", back: "#8a6544", belly: "#c8622d", wing: "#5f4632", beak: 0.5, round: 1.08 },
  { name: "Blue Tit", back: "#3f78b5", belly: "#f0d45c", wing: "#35648f", beak: 0.35, round: 1.1 },
  { name: "Blackbird", back: "#2b2b30", belly: "#3a3a40", wing: "#1f1f23", beak: 0.7, round: 0.94 },
  { name: "Goldfinch", back: "#d9bd92", belly: "#f6f2e8", wing: "#e8b92f", beak: 0.5, round: 1 },
  { name: "Wren", back: "#7a4f3a", belly: "#d9bd92", wing: "#5f4632", beak: 0.5, round: 1.16 },
  { name: "Nuthatch", back: "#6f7c8a", belly: "#d9a06a", wing: "#4d5a68", beak: 0.85, round: 0.98 },
  { name: "Bullfinch", back: "#6f7c8a", belly: "#d98a80", wing: "#2b2b30", beak: 0.4, round: 1.12 },
  { name: "Siskin", back: "#87935a", belly: "#f0d45c", wing: "#4f5a34", beak: 0.45, round: 1.02 },
  { name: "Dunnock", back: "#8a6544", belly: "#a9adb0", wing: "#5f4632", beak: 0.5, round: 1 },
];

function canvas(): [HTMLCanvasElement, CanvasRenderingContext2D] {
  const sheet = document.createElement("canvas");
  sheet.width = WIDTH;
  sheet.height = HEIGHT;
  return [sheet, sheet.getContext("2d")!];
}

function picture(sheet: HTMLCanvasElement, name: string): Promise<File> {
  return new Promise((resolve, reject) =>
    sheet.toBlob((blob) => (blob ? resolve(new File([blob], name, { type: "image/png" })) : reject(new Error("The browser cannot draw the example."))), "image/png"),
  );
}

function drawBird(pen: CanvasRenderingContext2D, bird: Bird, x: number, y: number, size: number): void {
  const blob = (cx: number, cy: number, rx: number, ry: number, turn: number, colour: string) => {
    pen.fillStyle = colour;
    pen.beginPath();
    pen.ellipse(x + cx * size, y + cy * size, rx * size, ry * size, turn, 0, 2 * Math.PI);
    pen.fill();
  };
  blob(-0.75, 0.42, 0.42, 0.11, -0.5, bird.wing); // tail
  blob(0, 0, 0.62, 0.44 * bird.round, -0.45, bird.back);
  blob(0.14, 0.14, 0.44, 0.31 * bird.round, -0.55, bird.belly);
  blob(0.44, -0.42, 0.28, 0.26, 0, bird.back);
  blob(-0.16, 0.06, 0.42, 0.2, -0.6, bird.wing);
  pen.fillStyle = "#4a4440";
  pen.beginPath();
  pen.moveTo(x + 0.69 * size, y - 0.5 * size);
  pen.lineTo(x + (0.72 + 0.3 * bird.beak) * size, y - 0.4 * size);
  pen.lineTo(x + 0.68 * size, y - 0.33 * size);
  pen.fill();
  blob(0.52, -0.47, 0.045, 0.045, 0, "#17171a");
  pen.strokeStyle = "#7a4f3a";
  pen.lineWidth = size * 0.05;
  pen.beginPath();
  for (const leg of [0.02, 0.2]) {
    pen.moveTo(x + leg * size, y + 0.4 * size);
    pen.lineTo(x + (leg + 0.04) * size, y + 0.78 * size);
  }
  pen.stroke();
}

export async function exampleFronts(): Promise<File[]> {
  const files: File[] = [];
  for (const [at, bird] of BIRDS.entries()) {
    const [sheet, pen] = canvas();
    pen.fillStyle = "#f4efe2";
    pen.fillRect(0, 0, WIDTH, HEIGHT);
    pen.fillStyle = "#dfe7dc";
    pen.fillRect(60, 60, WIDTH - 120, 660);
    drawBird(pen, bird, WIDTH / 2 - 10, 400, 250);
    pen.fillStyle = "#23302b";
    pen.textAlign = "center";
    pen.font = "600 78px system-ui, sans-serif";
    pen.fillText(bird.name, WIDTH / 2, 860);
    pen.font = "44px system-ui, sans-serif";
    pen.fillText(`bird ${at + 1} of ${BIRDS.length}`, WIDTH / 2, 940);
    files.push(await picture(sheet, `${at + 1}-${bird.name.toLowerCase().replace(" ", "-")}.png`));
  }
  return files;
}

export async function exampleBack(): Promise<File> {
  const [sheet, pen] = canvas();
  pen.fillStyle = "#1f5a4f";
  pen.fillRect(0, 0, WIDTH, HEIGHT);
  pen.strokeStyle = "#dfe7dc";
  pen.lineWidth = 6;
  pen.strokeRect(70, 70, WIDTH - 140, HEIGHT - 140);
  for (let row = 0; row < 7; row += 1)
    for (let column = 0; column < 5; column += 1) {
      pen.beginPath();
      pen.arc(152 + column * 110, 190 + row * 110, 26, 0, 2 * Math.PI);
      pen.stroke();
    }
  return picture(sheet, "back.png");
}
