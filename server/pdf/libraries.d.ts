/** What is used of libraries that bring no types. */

declare module "pdfmake" {
  interface Made {
    getBuffer(): Promise<Uint8Array>;
  }
  interface Settings {
    /** Paths of files. */
    setFonts(fonts: Record<string, Record<"normal" | "bold" | "italics" | "bolditalics", string>>): void;
    setTableLayouts(layouts: Record<string, object>): void;
    setUrlAccessPolicy(lets: (url: string) => boolean): void;
    setLocalAccessPolicy(lets: (path: string) => boolean): void;
    createPdf(definition: object): Made;
  }
  const pdfmake: Settings;
  export default pdfmake;
}

declare module "fontkit" {
  export interface Font {
    readonly unitsPerEm: number;
    hasGlyphForCodePoint(codePoint: number): boolean;
    glyphForCodePoint(codePoint: number): { readonly advanceWidth: number };
  }
  export function create(bytes: Uint8Array, name?: string): Font;
}
