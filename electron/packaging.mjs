/**
 * How the installers are made (electron-builder). Nothing is signed unless the keys are in the environment:
 * CSC_LINK and CSC_KEY_PASSWORD (WIN_CSC_LINK, WIN_CSC_KEY_PASSWORD on Windows); for Apple's notarization
 * APPLE_ID, APPLE_APP_SPECIFIC_PASSWORD and APPLE_TEAM_ID. WHORL_SIGN=required fails without them.
 * The program never looks for updates: there is no server of ours to ask.
 *
 * @param {Record<string, string | undefined>} env
 * @returns {import('electron-builder').Configuration}
 */
export const packaging = env => ({
  appId: 'org.whorl.whorl',
  productName: 'Whorl',
  copyright: 'MIT',
  directories: { output: env.WHORL_OUT ?? 'out', buildResources: 'dist/icons' },
  files: ['package.json', 'README.md', 'dist/host', 'dist/renderer', 'sample-clips/*', '!**/*.map'],
  // Whatever another program or a library of C or Rust opens by its path must lie on the disk as a file.
  asar: true,
  asarUnpack: [
    'sample-clips',
    'node_modules/ffmpeg-static',
    'node_modules/@ffmpeg-installer',
    'node_modules/@ffprobe-installer',
    'node_modules/@resvg',
    'node_modules/@photostructure',
    'node_modules/@expo-google-fonts',
  ],
  // Everything compiled is Node-API, brought ready by its package.
  npmRebuild: false,
  electronFuses: {
    runAsNode: false,
    enableNodeOptionsEnvironmentVariable: false,
    enableNodeCliInspectArguments: false,
    enableCookieEncryption: true,
    enableEmbeddedAsarIntegrityValidation: true,
    onlyLoadAppFromAsar: true,
    grantFileProtocolExtraPrivileges: false,
    resetAdHocDarwinSignature: true,
  },
  electronDist: env.WHORL_ELECTRON_DIST,
  forceCodeSigning: env.WHORL_SIGN === 'required',
  publish: null,
  linux: {
    target: ['AppImage', 'deb'],
    category: 'Science',
    synopsis: 'Ball spin from high-speed clips',
    maintainer: 'Whorl',
    icon: 'dist/icons/icon.png',
  },
  mac: {
    target: ['dmg'],
    category: 'public.app-category.sports',
    hardenedRuntime: true,
    notarize: env.APPLE_TEAM_ID !== undefined,
    icon: 'dist/icons/icon.png',
  },
  win: { target: ['nsis'], icon: 'dist/icons/icon.png' },
  nsis: { oneClick: true, perMachine: false, deleteAppDataOnUninstall: false },
})
