export type Severity = "error" | "warning" | "info";
