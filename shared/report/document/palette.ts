/** The colours of pages and drawings, light and dark; on paper always light. */

export const LIGHT = {
  paper: "#fdfcf9",
  panel: "#f4f1e9",
  ink: "#1f272b",
  quiet: "#5f6a6b",
  rule: "#d9d4c7",
  accent: "#0b666b",
  land: "#d3d7bd",
  "land-edge": "#737f50",
  zone: "#bcdde2",
  "zone-edge": "#3f8794",
  ray: "#0b5560",
  "low-k": "#a8660d",
  obstacle: "#8a4326",
  good: "#27704a",
  error: "#ad2a1f",
  warning: "#8d5f00",
  info: "#34648f",
  accepted: "#67548f",
  unjudged: "#5f6a6b",
};

export type Palette = typeof LIGHT;

export const DARK: Palette = {
  paper: "#14181b",
  panel: "#1d2327",
  ink: "#e6e3db",
  quiet: "#9aa4a3",
  rule: "#353d41",
  accent: "#74c8c5",
  land: "#39422f",
  "land-edge": "#93a06f",
  zone: "#1e4750",
  "zone-edge": "#63aebb",
  ray: "#9fe0e0",
  "low-k": "#e0a553",
  obstacle: "#d98f6d",
  good: "#74c596",
  error: "#f08b7d",
  warning: "#dcae52",
  info: "#8fb8dd",
  accepted: "#b7a5dd",
  unjudged: "#9aa4a3",
};

export const PRINT: Palette = { ...LIGHT, paper: "#fff", panel: "#f2f2f2" };
