/**
 * Langium's services without an editor. Reading takes the lexer, made from the grammar's terminals; the
 * parser made from its rules is what a test holds our reading against.
 */
import {
  createDefaultCoreModule,
  createDefaultSharedCoreModule,
  EmptyFileSystem,
  inject,
  type LangiumCoreServices,
  type LangiumSharedCoreServices,
  type Module,
} from "langium";
import { HopwrightGeneratedModule, HopwrightGeneratedSharedModule } from "../generated/module.js";
import { HopLexer } from "./lexer.js";
import { HopTokenBuilder } from "./tokens.js";

/** What of the language differs from Langium's defaults, apart from the editor's services. */
const syntaxModule: Module<
  LangiumCoreServices,
  { parser: { Lexer: HopLexer; TokenBuilder: HopTokenBuilder } }
> = {
  parser: { Lexer: (services) => new HopLexer(services), TokenBuilder: () => new HopTokenBuilder() },
};

export function createSyntaxServices(): LangiumCoreServices {
  const shared: LangiumSharedCoreServices = inject(
    createDefaultSharedCoreModule(EmptyFileSystem),
    HopwrightGeneratedSharedModule,
  );
  const services: LangiumCoreServices = inject(
    createDefaultCoreModule({ shared }),
    HopwrightGeneratedModule,
    syntaxModule,
  );
  shared.ServiceRegistry.register(services);
  return services;
}
