// SPDX-License-Identifier: AGPL-3.0-or-later
// What is used of a package that comes without types.

declare module "wav-decoder" {
  /** A decoded file: one array of samples from -1 to 1 a channel. */
  interface Decoded {
    readonly sampleRate: number;
    readonly channelData: readonly Float32Array[];
  }
  const decoder: { decode(file: ArrayBufferLike): Promise<Decoded> };
  export default decoder;
}
