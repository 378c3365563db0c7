@echo off
rem Starts splitledger. Beside sources it builds the program first if that has not been done, or if the
rem sources have changed since. In a release there is nothing to build; one that brings its own Java uses
rem that and needs no other.
rem
rem   JAVA_HOME              the Java to use, if it is 17 or newer; else the one on the PATH
rem   SPLITLEDGER_JAVA_OPTS  more options for Java, separated by blanks, for example -Xmx4g
rem
rem Exit code: that of the command; 2 if it could not be built or no fitting Java was found.
rem
rem Paths may hold blanks, ampersands and parentheses: no bare variable stands within a block. Names begin
rem with sl_ because the programs started from here inherit them, and upper and lower case are the same.
setlocal EnableExtensions DisableDelayedExpansion

rem The command that is run once after a build, in the folder of this file, to note which classes a
rem start needs (see :prepare). What it prints is thrown away.
set "sl_training=evaluate protocols/flower-oil/protocol.yaml --out target/training --replace"

rem The folder of this file, without the backslash at its end.
set "sl_home=%~dp0"
set "sl_home=%sl_home:~0,-1%"
set "sl_archive=%sl_home%\target\splitledger.jsa"
rem What :prepare leaves: the Java it was done with, whose version need not be asked again at every start,
rem the size of the archive, and the date and size of the jar.
set "sl_prepared=%sl_home%\target\splitledger.java"
rem Name, size and date of every file that the last build by this script was made from.
set "sl_built=%sl_home%\target\splitledger.sources"
set "sl_now=%TEMP%\splitledger-%RANDOM%%RANDOM%.sources"

if exist "%sl_home%\pom.xml" goto :beside_sources
call :find_released
if errorlevel 1 exit /b 2
goto :choose_options

:beside_sources
call :find_java
if errorlevel 1 exit /b 2

call :list_sources >"%sl_now%" 2>nul
call :is_current
if errorlevel 1 call :build
set "sl_code=%ERRORLEVEL%"
del "%sl_now%" 2>nul
if not "%sl_code%"=="0" exit /b 2
call :find_jar

:choose_options
rem Runs are short and heaps small: the serial collector starts fastest. Whoever names another gets it.
set "sl_collector=-XX:+UseSerialGC"
if defined SPLITLEDGER_JAVA_OPTS if not "%SPLITLEDGER_JAVA_OPTS:GC=%"=="%SPLITLEDGER_JAVA_OPTS%" set "sl_collector="
rem Of what Java itself may have to say only errors count; an archive that does not fit is none.
set "sl_options=-Xshare:auto -XX:+VerifySharedSpaces -Xlog:disable -Xlog:all=error:stderr %sl_collector%"
set "sl_options=%sl_options% -Dfile.encoding=UTF-8 -Djava.awt.headless=true"

if not exist "%sl_home%\pom.xml" goto :show
call :is_prepared
if errorlevel 1 call :prepare

:show
rem Results and messages are UTF-8: let the console show them so, and give it back as it was.
set "sl_page="
for /f "tokens=2 delims=:." %%P in ('chcp') do set "sl_page=%%P"
if defined sl_page set "sl_page=%sl_page: =%"
chcp 65001 >nul 2>nul
call :is_whole
if errorlevel 1 goto :start_without
"%sl_java%" "-XX:SharedArchiveFile=%sl_archive%" %sl_options% %SPLITLEDGER_JAVA_OPTS% -jar "%sl_jar%" %*
goto :started
:start_without
"%sl_java%" %sl_options% %SPLITLEDGER_JAVA_OPTS% -jar "%sl_jar%" %*
:started
set "sl_code=%ERRORLEVEL%"
if defined sl_page chcp %sl_page% >nul 2>nul
exit /b %sl_code%

rem --- a Java that fits ------------------------------------------------------------------------------
rem Sets "sl_java" to the first that is version 17 or newer; the one that was prepared is taken at its word.
:find_java
set "sl_known="
set "sl_size="
set "sl_noted="
if not exist "%sl_prepared%" goto :look_for_java
for /f "usebackq tokens=1* delims==" %%A in ("%sl_prepared%") do (
    if "%%A"=="java" set "sl_known=%%B"
    if "%%A"=="size" set "sl_size=%%B"
    if "%%A"=="jar" set "sl_noted=%%B"
)
:look_for_java
set "sl_java="
rem Some write quotation marks around it.
if defined JAVA_HOME set "JAVA_HOME=%JAVA_HOME:"=%"
if defined JAVA_HOME call :fits "%JAVA_HOME%\bin\java.exe"
if defined sl_java exit /b 0
for %%J in (java.exe) do if not "%%~$PATH:J"=="" call :fits "%%~$PATH:J"
if defined sl_java exit /b 0
if defined JAVA_HOME goto :no_java_at_home
>&2 echo splitledger: Java 17 or newer is needed and was not found: install a JDK, or set JAVA_HOME to one
exit /b 1
:no_java_at_home
>&2 echo splitledger: Java 17 or newer is needed; neither JAVA_HOME ("%JAVA_HOME%") nor the PATH has it
exit /b 1

rem Sets "sl_java" if %1 is a Java of version 17 or newer.
:fits
if not exist "%~1" exit /b 1
if "%~1"=="%sl_known%" goto :it_fits
call :ask_java "%~1"
if not defined sl_version exit /b 1
if %sl_version% LSS 17 exit /b 1
:it_fits
set "sl_java=%~1"
exit /b 0

rem Sets "sl_version" (17; nothing for 1.8 and older) and "sl_jdk", the folder of the Java %1.
:ask_java
set "sl_version="
set "sl_jdk="
set "sl_answer=%TEMP%\splitledger-%RANDOM%%RANDOM%.java"
"%~1" -XshowSettings:properties -version >"%sl_answer%" 2>&1
for /f "usebackq tokens=1* delims==" %%A in ("%sl_answer%") do (
    if "%%A"=="    java.specification.version " set "sl_version=%%B"
    if "%%A"=="    java.home " set "sl_jdk=%%B"
)
del "%sl_answer%" 2>nul
if defined sl_version set "sl_version=%sl_version: =%"
if defined sl_jdk set "sl_jdk=%sl_jdk:~1%"
if defined sl_version if not "%sl_version:.=%"=="%sl_version%" set "sl_version="
exit /b 0

rem --- a release: the program lies beside this file, and nothing is written here -----------------------
rem Sets "sl_java" and "sl_jar"; no "sl_size" means that there is no archive of classes.
:find_released
set "sl_size="
set "sl_jar="
for %%F in ("%sl_home%\splitledger-*.jar") do set "sl_jar=%%~fF"
if defined sl_jar goto :find_released_java
>&2 echo splitledger: the program is missing in "%sl_home%": unpack the release again
exit /b 1
:find_released_java
if not exist "%sl_home%\runtime" goto :find_java
set "sl_java=%sl_home%\runtime\bin\java.exe"
if exist "%sl_java%" exit /b 0
>&2 echo splitledger: no java.exe in "%sl_home%\runtime\bin": unpack the release for Windows again
exit /b 1

rem --- building --------------------------------------------------------------------------------------
rem Sets "sl_jar" to the newest one.
:find_jar
set "sl_jar="
for /f "delims=" %%F in ('dir /b /a-d /o-d "%sl_home%\target\splitledger-*.jar" 2^>nul') do (
    if not defined sl_jar set "sl_jar=%sl_home%\target\%%F"
)
if defined sl_jar exit /b 0
exit /b 1

:list_sources
for %%F in ("%sl_home%\pom.xml" "%sl_home%\shared\glassware.csv" "%sl_home%\shared\solvents.csv") do @echo %%~tzF %%F
for /r "%sl_home%\.mvn" %%F in (*) do @echo %%~tzF %%F
for /r "%sl_home%\src\main" %%F in (*) do @echo %%~tzF %%F
exit /b 0

rem Same names, sizes and dates as at the last build? (Nothing here has to read a date, which differ by country.)
:is_current
call :find_jar
if errorlevel 1 exit /b 1
if not exist "%sl_built%" exit /b 1
fc /b "%sl_now%" "%sl_built%" >nul 2>nul
if errorlevel 1 exit /b 1
exit /b 0

:build
call :ask_java "%sl_java%"
if exist "%sl_jdk%\bin\javac.exe" goto :build_with_jdk
>&2 echo splitledger: it must be built first, and that needs a JDK; "%sl_jdk%" only runs programs
exit /b 1
:build_with_jdk
>&2 echo splitledger: building it, which is needed once and takes a few minutes ...
rem Without tests and format check: those belong to "mvnw verify". In a process of its own: it may end as it likes.
set "sl_java_home=%JAVA_HOME%"
set "JAVA_HOME=%sl_jdk%"
pushd "%sl_home%"
cmd /d /c "mvnw.cmd -q -Dmaven.test.skip=true -Dspotless.check.skip=true package" 1>&2 <nul
set "sl_code=%ERRORLEVEL%"
popd
set "JAVA_HOME=%sl_java_home%"
if "%sl_code%"=="0" goto :was_built
>&2 echo splitledger: it could not be built; the lines above say why
exit /b 1
:was_built
copy /y "%sl_now%" "%sl_built%" >nul 2>nul
exit /b 0

rem --- class-data sharing: a start loads its classes from a file made by a first run -----------------
rem Java notices an archive that does not fit or was changed, but is ended by one that was cut short.
:is_whole
if not defined sl_size exit /b 1
if "%sl_size%"=="0" exit /b 1
:has_noted_size
if not exist "%sl_archive%" exit /b 1
for %%F in ("%sl_archive%") do if not "%%~zF"=="%sl_size%" exit /b 1
exit /b 0

:is_prepared
if not "%sl_java%"=="%sl_known%" exit /b 1
for %%F in ("%sl_jar%") do if not "%%~tzF"=="%sl_noted%" exit /b 1
goto :has_noted_size

rem Does its best and never fails: without the archive a start is a little slower, nothing else.
:prepare
set "sl_part=%sl_archive%.%RANDOM%"
pushd "%sl_home%"
"%sl_java%" "-XX:ArchiveClassesAtExit=%sl_part%" %sl_options% -jar "%sl_jar%" %sl_training% >nul 2>nul <nul
popd
rem An empty one means: cannot be made.
if not exist "%sl_part%" type nul >"%sl_part%" 2>nul
set "sl_size="
for %%F in ("%sl_part%") do set "sl_size=%%~zF"
if exist "%sl_archive%" attrib -r "%sl_archive%" >nul 2>nul
move /y "%sl_part%" "%sl_archive%" >nul 2>nul
if errorlevel 1 goto :not_prepared
for %%F in ("%sl_jar%") do set "sl_noted=%%~tzF"
>"%sl_prepared%" echo java=%sl_java%
>>"%sl_prepared%" echo size=%sl_size%
>>"%sl_prepared%" echo jar=%sl_noted%
exit /b 0
:not_prepared
del /f "%sl_part%" >nul 2>nul
set "sl_size="
exit /b 0
